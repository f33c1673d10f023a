import { describe, expect, it } from 'vitest';
import { isShift } from '../../../src/gather/dialects/draft/explained.js';
import { legendOf, withLegend } from '../../../src/gather/dialects/draft/legend.js';
import { kindsOf } from './support/kinds.js';

describe('the legend in a log’s head', () => {
  it.each([
    ['marks and words', '+ up  - down  > go  < there', '+', 'up'],
    ['marks written to their words', '◇開始 ◆終了(所要秒) ×失敗', '◆', '終了(所要秒)'],
    ['short forms', 'EX: exposure, FOC: focus run, WHL: wheel', 'EX', 'exposure'],
    ['short forms and words in turn', '; XP expose SV saved FC focus FW wheel LS star lost GO goto', 'LS', 'star lost'],
  ])('is read: %s', (_, line, mark, meaning) => {
    expect(legendOf([line]).words.get(mark)).toBe(meaning);
  });

  it('is none with fewer than three entries', () => {
    expect(legendOf(['site: Cierzo Hill']).words.size).toBe(0);
  });

  const head = [
    '; night book of the east pier',
    '; up< / up> = veil opens / shut; kp = frame saved',
    '; nap/rouse = guider rests',
    '; e = easter, p = veil/guider',
  ];
  const below = ['e up< # s', 'e up> # s', 'e kp #', 'p nap', 'p rouse'];

  it('states with = what the log makes use of, the second of two without what both share', () => {
    const legend = legendOf(head, below);
    expect([...legend.words].filter(([mark]) => mark.startsWith('up'))).toEqual([
      ['up<', 'veil opens'],
      ['up>', 'veil shut'],
    ]);
    expect(legend.words.get('rouse')).toBe('guider rests');
    expect(withLegend('e up> # s', legend).wording).toBe('veil shut e up> # s');
  });

  it('says nothing of what stands for one of two things', () => {
    const legend = legendOf(head, below);
    expect(legend.words.get('e')).toBe('easter');
    expect(legend.words.has('p')).toBe(false);
  });

  it('is no list of fields with the words that each may hold', () => {
    const { words } = legendOf(['# t=ISO, who=north|south, what=…, is=begin|end, f=filter'], ['who=# what=x is=begin']);
    expect([...words.keys()].filter((mark) => mark === 'who' || mark === 'is')).toEqual([]);
  });

  it('names who writes, where that stands in front of all that happens', () => {
    const legend = legendOf(head, [...below, ...['nap', 'rouse', 'kp', 'up<'].map((what) => `e ${what} again`)]);
    const { wording, lead } = withLegend('e kp #', legend);
    expect(wording.slice(0, lead)).toBe('easter ');
    expect(wording.slice(lead)).toBe('frame saved kp #');
  });

  it('is none where the log below makes no use of it', () => {
    expect(legendOf(['places = hills; lenses = glasses; plates = panes'], below).words.has('lenses')).toBe(false);
  });

  it('explains several codes a line, in front of what they may state in brackets', () => {
    const marks = ['EX+ opens (filter seconds)   EX- closes   EXX cut short', 'FW+ wheel turns  FW- wheel is there'];
    const legend = legendOf(marks, ['H EX+ L #', 'H EX- #', 'W FW+ L', 'W FW- L', 'W EXX #']);
    expect([...legend.phrases]).toEqual([
      ['EX+', 'opens'],
      ['EX-', 'closes'],
      ['EXX', 'cut short'],
      ['FW+', 'wheel turns'],
      ['FW-', 'wheel is there'],
    ]);
    expect(withLegend('W FW- L', legend).wording).toBe('wheel is there (W FW- L)');
  });

  it('leaves codes without a sign to the marks that stand beside them', () => {
    const found = legendOf(
      ['SH shutter  WH wheel  FO focus  GU guider  MO mount'],
      ['SH + #', 'WH - L', 'FO +', 'GU +'],
    );
    expect(found.phrases.size).toBe(0);
  });

  it('puts meanings in front of a wording, for what stands at its head alone', () => {
    const words = new Map([
      ['EX', 'exposure'],
      ['B', 'begin'],
    ]);
    const legend = { words, sources: new Set<string>(), phrases: new Map<string, string>() };
    expect(withLegend('EX B # s', legend).wording).toBe('exposure begin EX B # s');
    expect(withLegend('one two three EX', legend).wording).toBe('one two three EX');
  });

  it('says what the words mean with which messages begin, set apart by strokes', () => {
    const log = [
      'east up # s',
      'east down',
      'mast drum turns',
      'mast drum',
      'east nap',
      'mast hush on',
      'mast hush off',
    ];
    const legend = legendOf(
      [
        'Words: up = exposure begins / down = exposure over',
        '       drum = wheel turns / drum turns = filter is in',
        '       nap = rig rests, ready for the dither / hush on, hush off = settling begins, is over',
      ],
      log,
    );
    expect(withLegend('mast drum turns', legend).wording).toBe('filter is in mast drum turns');
    expect(withLegend('mast drum', legend).wording).toBe('wheel turns (mast drum)');
    expect(withLegend('mast hush off', legend).wording).toBe('settling is over (mast hush off)');
    // Behind other words it may mean something else.
    expect(withLegend('east mast focus up', legend).wording).toBe('east mast focus up');
  });

  it('is of codes, one or two together, set two blanks apart from what they mean', () => {
    const log = ['EAST  PK+ 300 s', 'EAST  PK-', 'WEST  WH', 'WEST  WH K', 'MAST  GU+', 'MAST  GU-'];
    const legend = legendOf(
      [
        'Key: MAST = both',
        '  PK+  plate open    PK-  plate closed    WH  wheel turns, WH K  filter is there',
        '  GU+ / GU-  guiding on / off    SH  shift',
      ],
      log,
    );
    expect(withLegend('WEST  WH K', legend).wording).toBe('filter is there (WEST  WH K)');
    expect(withLegend('WEST  WH', legend).wording).toBe('wheel turns (WEST  WH)');
    expect(withLegend('MAST  GU-', legend).wording).toBe('guiding off (MAST  GU-)');
  });

  it('is of codes, one a line of comment, where the log makes use of them', () => {
    const head = [
      '; C+  centring begins',
      '; C-  centring over (error)',
      '; D+  dither begins (dx, dy px)',
      '; D-  dither over',
    ];
    const legend = legendOf(head, ['M  C+', 'M  C- #', 'M  D+  # #', 'M  D-']);
    expect(withLegend('M  D+  # #', legend).wording).toBe('dither begins (dx, dy px) (M  D+  # #)');
    expect(legendOf(head, ['M  up', 'M  down']).phrases.size).toBe(0);
    const [kind] = kindsOf([[0, 'M  D+  0.4 -1.2']]);
    expect(kind === undefined ? null : isShift(kind, legend)).toBe(true);
    // A letter with a sign written to it is no filter.
    expect(
      kindsOf([
        [0, 'M  C+'],
        [9, 'M  R+'],
      ]).map(({ summary }) => summary),
    ).toEqual(['M C+', 'M R+']);
  });
});
