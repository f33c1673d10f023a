import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20) + seconds * 1000).toISOString();

/** Records called by a part of the observatory, of which two say by fields of their own what it does. */
const NIGHT = Array.from({ length: 12 }, (_, i) => {
  const at = i * 900;
  return [
    { at: stamp(at), part: 'mount', doing: 'slewing', to: 'M 33' },
    { at: stamp(at + 40), part: 'mount', doing: 'arrived' },
    { at: stamp(at + 43), part: 'filters', turning: 'Ha' },
    { at: stamp(at + 49), part: 'filters', holding: 'Ha' },
    { at: stamp(at + 50), part: 'shutter open', seconds: 600 },
    { at: stamp(at + 650), part: 'shutter closed' },
    { at: stamp(at + 654), part: 'saved', file: `m33_${i}.fits` },
  ];
}).flat();

it('takes records apart by fields that only they have', () => {
  const { report } = drafted(NIGHT.map((record) => JSON.stringify(record)));
  const eventOf = (text: string): (string | undefined)[] =>
    report.rules.filter(({ examples }) => examples[0]?.includes(text)).map(({ events }) => events[0]?.event);
  expect(eventOf('doing=slewing')).toEqual(['slew-begin']);
  expect(eventOf('doing=arrived')).toEqual(['slew-end']);
  expect(eventOf('turning=Ha')).toEqual(['filter-begin']);
  expect(eventOf('holding=Ha')).toEqual(['filter-end']);
});
