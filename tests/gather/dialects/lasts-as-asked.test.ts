import { expect, it } from 'vitest';
import { againstValues } from '../../../src/gather/dialects/draft/classify/priors.js';
import { lastsThroughFilter } from '../../../src/gather/dialects/draft/classify/lasts-as-asked.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';
import { kindsOf } from './support/kinds.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString().slice(0, 19);

/** Frames logged only at their end, in words that name no shutter, with radio procedure words. */
const CALLS = Array.from({ length: 20 }, (_, i) => [
  `${stamp(i * 210 + 180)} NORTH to BASE  180 s Ha on NGC 7000 finished, over`,
  `${stamp(i * 210 + 183)} NORTH to BASE  kept ha_${100 + i}.fits, out`,
  ...(i % 3 === 2
    ? [
        `${stamp(i * 210 + 185)} MOUNT to BASE  dithering 4.${i % 9} px`,
        `${stamp(i * 210 + 188)} MOUNT to BASE  dither done, out`,
        `${stamp(i * 210 + 188)} GUIDE to BASE  settling, stand by`,
        `${stamp(i * 210 + 200 + (i % 4))} GUIDE to BASE  settled, go ahead`,
      ]
    : []),
]).flat();

it('round seconds that have passed with a filter are an exposure, whatever the words hint at', async () => {
  const { yaml } = drafted(CALLS);
  const events = brief(await read(yaml, `${CALLS.join('\n')}\n`)).map((text) => text.split(' ').slice(0, 2).join(' '));
  const of = (name: string): string[] => events.filter((text) => text.endsWith(name));
  expect(of('exposure-end')).toHaveLength(20);
  expect(of('exposure-begin').map((text) => text.slice(11, 19))[0]).toBe('20:00:00');
  expect(events.some((text) => text.includes('flip'))).toBe(false);
});

it('and are none where they are few, short, or not asked for', () => {
  const kind = (seconds: (i: number) => string, lines = 12) => {
    const found = kindsOf(Array.from({ length: lines }, (_, i) => [i * 300, `${seconds(i)} s through Ha`] as const))[0];
    if (found === undefined) throw new Error('no kind');
    return found;
  };
  expect(
    lastsThroughFilter(
      kind((i) => (i % 2 === 0 ? '180' : '300')),
      'past',
    ),
  ).toBe(true);
  expect(
    lastsThroughFilter(
      kind((i) => (i % 2 === 0 ? '180' : '300')),
      'planned',
    ),
  ).toBe(false);
  expect(
    lastsThroughFilter(
      kind((i) => (i % 2 === 0 ? '5' : '6')),
      'past',
    ),
  ).toBe(false);
  expect(
    lastsThroughFilter(
      kind((i) => `${100 + i}.3`),
      'past',
    ),
  ).toBe(false);
  expect(
    lastsThroughFilter(
      kind(() => '180', 4),
      'past',
    ),
  ).toBe(false);
});

it('a mount does not change its side again and again', () => {
  const often = kindsOf(Array.from({ length: 40 }, (_, i) => [i * 300, 'over'] as const))[0];
  const once = kindsOf([[300, 'over']])[0];
  if (often === undefined || once === undefined) throw new Error('no kind');
  expect(againstValues(often, 'flip-end', 0)).toBeLessThan(-2);
  expect(againstValues(once, 'flip-end', 0)).toBe(0);
});
