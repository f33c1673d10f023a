import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { eventsRead, inOrder, iso, moves, shotEvents, SHOTS } from './support/night-of-tables.js';

/** The first blocks of the night, of which one has an exposure that is cut short. */
const FEW = SHOTS.slice(0, 56);
const MOVES = moves.slice(0, 14);

/** What a logger of readings writes: when, the parts of the name, the value. */
const READINGS: readonly (readonly [at: number, name: readonly string[], value: string])[] = [
  ...FEW.flatMap(({ train, atS, seconds, cutS, file }): (readonly [number, readonly string[], string])[] => {
    const endS = atS + (cutS ?? seconds);
    return [
      [atS, [train, 'camera', 'exposure_s'], String(seconds)],
      [atS, [train, 'camera', 'state'], 'exposing'],
      [endS, [train, 'camera', 'state'], cutS === undefined ? 'reading out' : 'aborted'],
      ...(cutS === undefined
        ? [
            [endS + 2, [train, 'camera', 'file'], file] as const,
            [endS + 2, [train, 'camera', 'state'], 'idle'] as const,
          ]
        : []),
    ];
  }),
  ...MOVES.flatMap(({ atS, pixels, calmS }): (readonly [number, readonly string[], string])[] => [
    [atS, ['mount', 'dither', 'pixels'], pixels.replace(',', '.')],
    [atS, ['mount', 'dither', 'state'], 'moving'],
    [atS + 3, ['mount', 'dither', 'state'], 'moved'],
    [atS + 3, ['guider', 'settling'], 'settling'],
    [calmS, ['guider', 'settling'], 'settled'],
    [calmS + 30, ['site', 'air_c'], '3.4'],
  ]),
];

describe('long tables of names and values', () => {
  it.each([
    ['topics of a bus', '/', ';', ['time', 'topic', 'value']],
    ['names with points, tabs', '.', '\t', ['at', 'what', 'is']],
  ])('are read by name and word, each train apart: %s', async (_, sign, mark, columns) => {
    const log = [
      columns.join(mark),
      ...inOrder(READINGS.map(([at, name, value]) => [at, [iso(at), name.join(sign), value].join(mark)])),
    ];
    const events = await eventsRead(log);
    const saved = FEW.filter(({ cutS }) => cutS === undefined);
    const expected = [
      ...shotEvents.slice(0, 2 * FEW.length).filter((event) => !event.includes('abort')),
      ...saved.map(({ train, atS, seconds }) => `${iso(atS + seconds + 2)} frame-saved ${train}`),
      ...MOVES.flatMap(({ atS, calmS }) => [
        `${iso(atS)} dither-begin`,
        `${iso(atS + 3)} dither-end`,
        `${iso(atS + 3)} settling-begin`,
        `${iso(calmS)} settling-end`,
      ]),
    ];
    const missing = expected.filter((event) => !events.includes(event));
    expect(missing, drafted(log).yaml).toEqual([]);
    // A length stated where exposures begin ends those, too, that are cut short.
    const cut = FEW.length - saved.length;
    expect(events.length - expected.length).toBeLessThanOrEqual(cut);
  });
});
