import { describe, expect, it } from 'vitest';
import { beginStamped } from '../../../src/gather/dialects/draft/kinds/begin-stamped.js';
import { byOptional } from '../../../src/gather/dialects/draft/kinds/optional-fields.js';
import { sourcePath } from '../../../src/gather/dialects/draft/kinds/source-path.js';
import { withSources } from '../../../src/gather/dialects/draft/kinds/sources.js';
import { kindsOf, rounds } from './support/kinds.js';

const record = (fields: Readonly<Record<string, string>>, i: number) => ({
  fields: new Map(Object.entries(fields)),
  line: i + 1,
  atMs: i * 1000,
});

describe('what wrote a line', () => {
  const said = (lines: readonly string[]): string[] =>
    withSources(kindsOf(lines.map((text, i) => [i, text] as const)))
      .map(({ wording, lead }) => wording.slice(lead))
      .sort();

  it('is distinguished from the message: brackets, colons and columns', () => {
    const messages = ['slew started', 'slew finished', 'centred', 'paused'];
    const sorted = [...messages].sort();
    expect(said(messages.map((text, i) => `[${i < 3 ? 'mount' : 'guide'}] ${text}`).concat('[guide] resumed'))).toEqual(
      [...sorted, 'resumed'].sort(),
    );
    expect(said(['mount: slew started', 'mount: slew finished', 'guide: paused', 'guide: resumed'])).toEqual([
      'paused',
      'resumed',
      'slew finished',
      'slew started',
    ]);
  });

  it('is part of the message if the rest says little: an activity is no device', () => {
    const lines = ['focus: 12 px', 'focus: ok then', 'filter: Ha now', 'filter: glass'];
    expect(said(lines).every((text) => /^(?:focus|filter)/.test(text))).toBe(true);
  });

  it('stands in brackets though the rest says less by itself', () => {
    const lines = ['<pose> pose # begins', '<pose> waits', '<sky> # 5', '<sky> clouds', '<tube> # 12', '<tube> seeks'];
    expect(said(lines).every((text) => !text.startsWith('<'))).toBe(true);
  });

  it('stands in a field of few values, unless that is an action beside its phase', () => {
    const devices = [
      { who: 'mount', what: 'slew started' },
      { who: 'mount', what: 'slew finished' },
      { who: 'guide', what: 'dither started' },
      { who: 'guide', what: 'settled' },
    ].map(record);
    expect(sourcePath(['who', 'what'], devices)).toBe('who');
    const phases = ['focus', 'filter', 'slew'].flatMap((what) => [
      { what, phase: 'begin' },
      { what, phase: 'end' },
    ]);
    expect(sourcePath(['what', 'phase'], phases.map(record))).toBeNull();
  });
});

describe('records with a number that others of their kind lack', () => {
  it('stand apart: they tell how far it has come', () => {
    const lines: Readonly<Record<string, string>>[] = [
      { state: 'open' },
      { state: 'open', percent: '33' },
      { state: 'open' },
      { state: 'open', percent: '66' },
    ];
    const variants = byOptional(lines.map(record), []);
    expect(variants.map(({ lines: own, present, absent }) => [own.length, present, absent])).toEqual([
      [2, [], ['percent']],
      [2, ['percent'], []],
    ]);
  });

  it('stay together where nearly all have it', () => {
    const lines = Array.from({ length: 6 }, (_, i) => record({ state: 'open', ...(i > 0 ? { percent: '1' } : {}) }, i));
    expect(byOptional(lines, [])).toHaveLength(1);
  });
});

describe('lines with the seconds that a thing took', () => {
  // A dither of 3 s, a settling of 12 s right after it, round by round.
  const night = (isBegin: boolean) =>
    kindsOf(
      rounds(8, 300, (from) => [
        [from + (isBegin ? 0 : 3), 'dither took 3 s'],
        [from + (isBegin ? 3 : 15), 'settling took 12 s'],
      ]),
    );

  it('stand at its beginning where spans counted back would overlap', () => {
    const spanning = beginStamped(night(true));
    expect(spanning.size).toBe(2);
    for (const [kind, { kind: ended, tookMs }] of spanning)
      expect((ended.atMs[0] ?? NaN) - (kind.atMs[0] ?? NaN)).toBe(tookMs[0]);
  });

  it('stand at its end where they fit that way', () => {
    expect(beginStamped(night(false)).size).toBe(0);
  });
});
