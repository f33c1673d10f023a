import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const stamp = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();

// Exposures logged at their end; an aborted one does not state its length.
it('detects a lost star in an aborted exposure without a logged begin', () => {
  const lines = Array.from({ length: 40 }, (_, i) => {
    const at = i * 140;
    if (i % 7 !== 5) return [`${stamp(at + 120)} exposure over: 120 s, filter L`];
    return [
      `${stamp(at + 40)} guide star lost`,
      `${stamp(at + 43)} exposure aborted`,
      `${stamp(at + 90)} guide star found`,
    ];
  }).flat();
  const events = drafted([`${stamp(-60)} guiding started`, ...lines]).report.rules.flatMap(({ events: own }) =>
    own.map(({ event }) => event),
  );
  expect(events).toEqual(expect.arrayContaining(['star-gap-begin', 'star-gap-end']));
});
