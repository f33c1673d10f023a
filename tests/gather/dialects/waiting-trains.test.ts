import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const stamp = (seconds: number): string =>
  new Date(Date.UTC(2026, 9, 14, 20) + seconds * 1000).toISOString().slice(0, 19);

/** Two cameras whose exposures are logged at their end, and that wait for each other before each dither. */
const NIGHT = Array.from({ length: 20 }, (_, i) => [
  { at: i * 700 + 300, text: 'cam-left: exposed 290.0 s through Ha' },
  { at: i * 700 + 303, text: `cam-left: stored l_${i}.fits` },
  { at: i * 700 + 304, text: 'cam-left: waiting for dither' },
  { at: i * 700 + 642, text: 'cam-right: exposed 630.0 s through L' },
  { at: i * 700 + 645, text: `cam-right: stored r_${i}.fits` },
  { at: i * 700 + 646, text: 'cam-right: waiting for dither' },
  { at: i * 700 + 648, text: `dither ${2 + (i % 4)}.5 px` },
  { at: i * 700 + 651, text: 'settling' },
  { at: i * 700 + 669 + (i % 5), text: `settled, ${18 + (i % 5)}.0 s` },
]).flat();

it('distinguishes trains by exposures logged at their end, and so which one waits for the dither', () => {
  const { report } = drafted(NIGHT.map(({ at, text }) => `${stamp(at)} ${text}`));
  const waits = report.rules.filter(({ examples }) => examples[0]?.includes('waiting'));
  expect(waits.map(({ events, train }) => [events.map(({ event }) => event), train])).toEqual([
    [['dither-ready'], 'cam-left'],
    [['dither-ready'], 'cam-right'],
  ]);
});
