import { describe, expect, it } from 'vitest';
import { withOffsetColumn } from '../../../src/gather/dialects/draft/time/offset-column.js';
import { saysSidereal } from '../../../src/gather/dialects/draft/time/sidereal.js';
import type { TimeCells } from '../../../src/gather/dialects/draft/time/guess.js';

const CELLS: TimeCells = {
  paths: ['time'],
  isFirst: false,
  stamp: { pattern: '{hour}:{minute}', at: 'start', coverage: 1, dayFirstAssumed: false, forward: 1 },
};

/** The zone that a column of this name says, whose rows hold these texts in turn. */
function zoneBy(name: string, ...texts: readonly string[]): string | undefined {
  const rows = Array.from(
    { length: 12 },
    (_, i) =>
      new Map([
        ['time', `22:${10 + i}`],
        [name, texts[i % texts.length] ?? ''],
      ]),
  );
  return withOffsetColumn(CELLS, rows)?.stamp.zone;
}

describe('the offset of a clock in a column of its own', () => {
  it.each([
    ['plus UTC', '2', '+02:00'],
    ['UTC+', '5.5', '+05:30'],
    ['Zeitzone', '1', '+01:00'],
    ['utc_offset', '120', '+02:00'],
    ['fuso', '-3', '-03:00'],
    ['时区', '+8', '+08:00'],
    ['tz', 'UTC+02:00', '+02:00'],
    ['x', '+0200', '+02:00'],
    ['clock', 'CEST', '+02:00'],
    ['Zone', 'Z', 'utc'],
    ['UTC minus local', '-2', '+02:00'],
  ])('is read: %s %s', (name, text, zone) => {
    expect(zoneBy(name, text)).toBe(zone);
  });

  it('is nothing that changes, has no such name, or is no offset', () => {
    expect(zoneBy('plus UTC', '2', '1')).toBeUndefined();
    expect(zoneBy('gain', '2')).toBeUndefined();
    expect(zoneBy('UTC', '17')).toBeUndefined();
    expect(zoneBy('filter', 'OIII')).toBeUndefined();
    expect(zoneBy('shift', '-2.1')).toBeUndefined();
    expect(zoneBy('steps', '+2')).toBeUndefined();
    expect(zoneBy('zone', 'north')).toBeUndefined();
  });
});

describe('a head that calls times sidereal', () => {
  it.each(['all times LMST', 'times: LST', 'lst', 'Zeiten in Sternzeit', 'sidereal time'])('says so: %s', (text) => {
    expect(saysSidereal(text)).toBe(true);
  });

  it.each(['What happened last night', 'LAST NIGHT AT THE HILL', 'Last updated', 'on running, lst guide star lost'])(
    'does not: %s',
    (text) => {
      expect(saysSidereal(text)).toBe(false);
    },
  );
});
