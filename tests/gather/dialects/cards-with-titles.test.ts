import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const START_MS = Date.UTC(2026, 9, 14, 20);
const iso = (seconds: number): string => new Date(START_MS + seconds * 1000).toISOString();

/** 2026-10-14 20:00 UTC is MJD 61327.83333 (IAU: MJD = JD − 2400000.5; MJD 40587.0 is 1970-01-01). */
const mjd = (seconds: number): string => (61327 + 20 / 24 + seconds / 86_400).toFixed(8);
const micros = (seconds: number): string => String((START_MS + seconds * 1000) * 1000);

/** Cards written when their activity is over: a title, and below it the times in a sentence. */
function cards(at: (seconds: number) => string, from: string, to: string): string[] {
  const span = (begin: number, end: number): string => `    ${from} ${at(begin)} ${to} ${at(end)}`;
  return Array.from({ length: 20 }, (_, i) => {
    const t = i * 360;
    const n = (k: number): string => `[${String(i * 4 + k).padStart(4, '0')}]`;
    const lost = i % 5 === 3;
    return [
      [
        `${n(0)} exposure · heron · M 33 · Ha · 300 s`,
        ...(lost
          ? [span(t + 10, t + 200), '    aborted: guide star lost']
          : [span(t + 10, t + 310), `    saved ${at(t + 314)} heron/${String(i)}.fits`]),
      ],
      ...(lost ? [[`${n(1)} guide star lost`, span(t + 150, t + 240)]] : []),
      [`${n(2)} dither · 2.4 px`, span(t + 316, t + 319)],
      [`${n(3)} settling`, span(t + 320, t + 335)],
    ].flatMap((card) => [...card, '']);
  }).flat();
}

describe('cards with a title above sentences with times', () => {
  it.each([
    ['milliseconds', (s: number) => String(START_MS + s * 1000), 'from', 'to'],
    ['microseconds', micros, 'from', 'until'],
    ['modified Julian dates', mjd, 'de', 'até'],
  ])('are read by the times below their titles, in %s', async (_, at, from, to) => {
    const lines = ['cards of the session, 1 head', '', ...cards(at, from, to)];
    const { yaml } = drafted(lines);
    const events = brief(await read(yaml, `${lines.join('\n')}\n`)).map((one) => one.split(' '));
    const found = new Set(events.map(([time]) => time));
    const names = events.map(([, name]) => name);
    for (const [name, count] of [
      ['exposure-begin', 20],
      ['exposure-end', 20],
      ['frame-saved', 16],
      ['star-gap-begin', 4],
      ['star-gap-end', 4],
      ['dither-begin', 20],
      ['dither-end', 20],
      ['settling-begin', 20],
      ['settling-end', 20],
    ] as const)
      expect(names.filter((one) => one === name).length, name).toBe(count);
    for (const seconds of [10, 310, 314, 316, 319, 335]) expect(found).toContain(iso(seconds));
  });
});
