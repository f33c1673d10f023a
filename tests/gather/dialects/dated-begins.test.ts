import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString();

/** Frames with dithers in between, whose settling is logged at its end, with its duration. */
const NIGHT = Array.from({ length: 12 }, (_, i) => [
  `${stamp(i * 210)} exposing 180 s, filter L`,
  `${stamp(i * 210 + 180)} exposure over`,
  `${stamp(i * 210 + 182)} dither RA +${i % 4}.2 Dec -1.4 px, camera idle and ready`,
  `${stamp(i * 210 + 185)} dither move done, settling`,
  `${stamp(i * 210 + 185 + 9 + (i % 3))} settled in ${9 + (i % 3)}.0 s`,
]).flat();

it('tells a beginning once: by the end that says how long it took, not by what went before as well', () => {
  const { report } = drafted(NIGHT);
  const events = (beginning: string): string[] =>
    report.rules
      .filter(({ examples }) => examples[0]?.startsWith(beginning))
      .flatMap((rule) => rule.events.map(({ event }) => event));
  expect(events('dither move done')).toEqual(['dither-end']);
  expect(events('settled in')).toEqual(['settling-end']);
  expect(report.rules.find(({ examples }) => examples[0]?.startsWith('settled'))?.lasted).toBe('took');
  // What says how far it goes waits for nothing.
  expect(events('dither RA')).toEqual(['dither-begin']);
});
