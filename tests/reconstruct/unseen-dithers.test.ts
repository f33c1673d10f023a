import { expect, it } from 'vitest';
import type { Activity } from '../../src/model/index.js';
import { unseenDithers } from '../../src/reconstruct/unseen-dithers.js';
import { act, lights } from '../findings/support.js';

it('short subs without dithers in sight are reported, others are not', () => {
  const subs = (seconds: number, count = 300) => lights('heron', { from: 0, seconds, count, pause: 1 });
  const dithers = (count: number): Activity[] =>
    Array.from({ length: count }, (_, i) => act('dither-move', 330 * i, 330 * i + 4));
  const [notice] = unseenDithers(subs(10), dithers(1));
  expect(notice?.message).toMatch(/^with subs of 10 s, .*up to 2\.5 s beyond the usual one count as readout/);
  expect(unseenDithers(subs(10), dithers(10))).toEqual([]);
  expect(unseenDithers(subs(120), [])).toEqual([]);
  expect(unseenDithers(subs(10, 20), [])).toEqual([]);
});
