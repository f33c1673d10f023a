import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const START = Date.UTC(2026, 9, 14, 20);
const DAY_MS = 86_400_000;

/** A night that goes past midnight: what is done in each round, and when, ms. */
const ROUNDS = Array.from({ length: 50 }, (_, i) => {
  const atMs = START + i * 330_000;
  return [
    { atMs, work: 'exposure', phase: 'begin' },
    { atMs: atMs + 300_100, work: 'exposure', phase: 'end' },
    { atMs: atMs + 303_000, work: 'dither', phase: 'begin' },
    { atMs: atMs + 308_300, work: 'dither', phase: 'end' },
  ];
}).flat();
const dayOf = (atMs: number): string => new Date(atMs).toISOString().slice(0, 10);
const secondsOf = (atMs: number): number => (atMs % DAY_MS) / 1000;

describe('a draft of rows with a date and the seconds of its day', () => {
  it('takes both fields for the time', () => {
    const lines = ROUNDS.map(({ atMs, ...row }) => JSON.stringify({ sod: secondsOf(atMs), ...row, on: dayOf(atMs) }));
    const { report } = drafted(lines);
    expect(report.layout).toMatchObject({ kind: 'records', form: 'json', time: ['on', 'sod'] });
    expect(report.stamp?.pattern).toBe('{year}-{month}-{day} {day-second}');
  });

  it('takes milliseconds in a column', () => {
    const rows = ROUNDS.map(({ atMs, work, phase }) =>
      [dayOf(atMs), Math.round(secondsOf(atMs) * 1000), work, phase].join(','),
    );
    const { report } = drafted(['on,passed,work,phase', ...rows], 'night.csv');
    expect(report.layout).toMatchObject({ kind: 'csv', time: ['on', 'passed'] });
    expect(report.stamp?.pattern).toBe('{year}-{month}-{day} {day-ms}');
  });

  it.each([40_000, 1000])('takes no numbers of rows for seconds, from %i on', (first) => {
    const rows = ROUNDS.map(({ atMs, work, phase }, i) => [dayOf(atMs), first + i, work, phase].join(','));
    const { report } = drafted(['on,row,work,phase', ...rows], 'night.csv');
    expect(report.stamp?.pattern ?? '').not.toContain('{day-');
  });

  it('takes seconds for time where rows come in a steady rhythm', () => {
    const rows = Array.from({ length: 400 }, (_, i) => {
      const atMs = START + i * 60_000;
      return `${dayOf(atMs)} ${secondsOf(atMs)} ${['exposure begin', 'calm', 'calm', 'exposure end'][i % 4] ?? ''}`;
    });
    expect(drafted(rows).report.stamp?.pattern).toBe('{year}-{month}-{day} {day-second}');
  });
});
