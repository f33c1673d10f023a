import { describe, expect, it } from 'vitest';
import { REPLAY_SETTINGS } from '../../src/model/index.js';
import { applySettings, formatSetting, parseSetting, slowestTrain } from '../../src/replay/settings.js';
import { courseOf, START_MS } from './support.js';

const TRAINS = ['heron', 'wren'];
const course = courseOf(
  3_600_000,
  [
    { id: 'heron', exposureMs: 300_000 },
    { id: 'wren', exposureMs: 240_000 },
  ],
  { ditherEvery: 3, patienceMs: { wren: 30_000 } },
);
const rulesOf = (...texts: string[]) =>
  applySettings(
    course,
    texts.map((t) => {
      const parsed = parseSetting(t, TRAINS);
      if (typeof parsed === 'string') throw new Error(parsed);
      return parsed;
    }),
  );

describe('settings', () => {
  it.each([
    'dither-every=5',
    'dither-every=never',
    'dither-every.wren=4',
    'dither-lead=wren',
    'dither-waits=no',
    'patience.wren=45',
    'exposure.wren=300',
    'start-offset.wren=2.5',
    'focus=together',
    'refocus.wren=offsets',
    'pause.wren=2.6',
    'filter-row.wren=9',
    'guiding=guide-scope',
  ])('%s is read and written alike', (text) => {
    const parsed = parseSetting(text, TRAINS);
    expect(parsed).not.toBeTypeOf('string');
    if (typeof parsed !== 'string') expect(formatSetting(parsed)).toBe(text);
  });

  it('are all mentioned in the help', () => {
    for (const { usage } of REPLAY_SETTINGS) {
      const [key = '', values = ''] = usage.split('=');
      const value =
        { N: '3', TRAIN: 'wren', SECONDS: '60', MINUTES: '2' }[values.split('|')[0] ?? ''] ?? values.split('|')[0];
      expect(parseSetting(`${key.replace('TRAIN', 'wren')}=${value}`, TRAINS), usage).not.toBeTypeOf('string');
    }
  });

  it('take units and spaces', () => {
    expect(parseSetting(' exposure.wren = 5m ', TRAINS)).toEqual({ key: 'exposure', train: 'wren', seconds: 300 });
    expect(parseSetting('start-offset.wren=90s', TRAINS)).toEqual({ key: 'start-offset', train: 'wren', minutes: 1.5 });
    expect(parseSetting('dither-every=0', TRAINS)).toEqual({ key: 'dither-every', frames: null });
  });

  it.each([
    ['dither=4', 'there is no setting dither'],
    ['exposure=300', 'is set for one train'],
    ['exposure.hern=300', 'there is no train hern; there are heron, wren'],
    ['dither-every=2.5', 'a whole number of frames'],
    ['dither-every=x', 'a whole number of frames'],
    ['focus=both', 'own or together'],
    ['guiding=', 'off-axis or guide-scope'],
    ['exposure.wren=-3', 'seconds'],
    ['exposure.wren=0', 'seconds'],
    ['patience.wren=long', 'seconds'],
    ['start-offset.wren=never', 'minutes'],
    ['dither-lead=stilt', 'one of the trains'],
    ['dither-waits=maybe', 'yes or no'],
    ['nonsense', 'not of the form key=value'],
  ])('%s is refused in a sentence: %s', (text, sentence) => {
    expect(parseSetting(text, TRAINS)).toContain(sentence);
  });

  it('change the rules they name and no others', () => {
    expect(rulesOf('dither-every=5')).toEqual({ ...course.rules, ditherEvery: 5 });
    expect(rulesOf('exposure.wren=300')).toEqual({ ...course.rules, exposureMs: { wren: 300_000 } });
    expect(rulesOf('start-offset.wren=2.5').startMs).toEqual({ wren: START_MS + 150_000 });
    expect(rulesOf('dither-waits=no').awaited).toEqual(['heron']);
    expect(rulesOf('patience.wren=0').patienceMs).toEqual({ wren: 0 });
  });

  it('give the lead to the slowest train, with as many frames as take as long', () => {
    expect(slowestTrain(course, course.rules)).toBe('heron');
    const rules = rulesOf('exposure.wren=450', 'dither-lead=slowest');
    expect(rules).toMatchObject({ lead: 'wren', ditherEvery: 2, patienceMs: { heron: 30_000 }, ownCount: {} });
  });

  it('keep trains that count for themselves in step, unless their count is set too', () => {
    const counting = courseOf(
      3_600_000,
      [
        { id: 'heron', exposureMs: 300_000 },
        { id: 'wren', exposureMs: 240_000 },
      ],
      { ditherEvery: 3, ownCount: { wren: 4 } },
    );
    expect(applySettings(counting, [{ key: 'dither-every', frames: 6 }]).ownCount).toEqual({ wren: 8 });
    expect(applySettings(counting, [{ key: 'exposure', train: 'wren', seconds: 300 }]).ownCount).toEqual({ wren: 3 });
    expect(
      applySettings(counting, [
        { key: 'dither-every', frames: 6 },
        { key: 'dither-every', train: 'wren', frames: 5 },
      ]).ownCount,
    ).toEqual({ wren: 5 });
    expect(applySettings(counting, [{ key: 'focus', how: 'together' }]).ownCount).toEqual({ wren: 4 });
  });
});
