import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString();

it('opens no shutter where a line tells how long it still stays open', () => {
  const { report } = drafted(
    Array.from({ length: 12 }, (_, i) => [
      `${stamp(i * 250)} frame ${i + 1}: opening for 240 s, filter L`,
      `${stamp(i * 250 + 120)} frame ${i + 1}: half, another 120 s`,
      `${stamp(i * 250 + 240)} frame ${i + 1}: over`,
    ]).flat(),
  );
  expect(report.rules.map(({ events, examples }) => [examples[0]?.slice(9), events.map(({ event }) => event)])).toEqual(
    [
      ['opening for 240 s, filter L', ['exposure-begin']],
      ['over', ['exposure-end']],
    ],
  );
});
