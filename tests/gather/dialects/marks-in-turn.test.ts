import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString().slice(0, 19);

/** What a device enters and leaves, from and to which second: exposures, dithers and the calm after them. */
const STEPS = Array.from({ length: 30 }, (_, i) => [
  { device: 'heron.camera', step: 'exposure', from: i * 340, to: i * 340 + 300, more: ' 300 s Ha' },
  { device: 'guider', step: 'dither', from: i * 340 + 304, to: i * 340 + 310, more: '' },
  { device: 'guider', step: 'settling', from: i * 340 + 310, to: i * 340 + 332, more: '' },
]).flat();

it.each([
  ['angles', '>', '<'],
  ['signs', '+', '-'],
  ['triangles', '▶', '■'],
])('what is entered and left by %s behind a device begins and ends', async (_, enters, leaves) => {
  const reported = STEPS.flatMap(({ device, step, from, to, more }) => [
    { at: from, text: `${device} ${enters} ${step}${more}`, event: `${from} ${step}-begin` },
    { at: to, text: `${device} ${leaves} ${step}`, event: `${to} ${step}-end` },
  ]).sort((a, b) => a.at - b.at);
  const lines = reported.map(({ at, text }) => `${stamp(at)} ${text}`);
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const found = log.events.map(({ atMs, event }) => `${(atMs - Date.UTC(2026, 9, 14, 20)) / 1000} ${event}`);
  expect(found.toSorted()).toEqual(reported.map(({ event }) => event).toSorted());
});
