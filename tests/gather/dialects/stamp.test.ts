import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monthNumber } from '../../../src/gather/dialects/time/month-names.js';
import { newStamp, StampPattern, TIME_TOKENS, TimePatternError } from '../../../src/gather/dialects/time/stamp.js';
import { zoneByName } from '../../../src/gather/dialects/time/zone.js';
import { runs } from '../../support/runs.js';

function read(pattern: string, text: string): { time: string; offset: number; rest: string } | null {
  const stamp = newStamp();
  const bytes = Buffer.from(text);
  if (!new StampPattern(pattern).readAt(bytes, 0, bytes.length, stamp)) return null;
  return {
    time: new Date(stamp.ms).toISOString(),
    offset: stamp.offsetMinutes,
    rest: bytes.subarray(stamp.end).toString(),
  };
}

describe('the usual form of time', () => {
  it('reads what its placeholders read one by one', () => {
    // The same pattern, but for a blank that makes it no usual one: any number of blanks may stand there.
    const [usual, other] = [' ', '  '].map(
      (blanks) => new StampPattern(`{year}-{month}-{day}${blanks}{hour}:{minute}:{second}`),
    );
    const two = fc.oneof(
      fc.integer({ min: 0, max: 61 }).map((n) => String(n).padStart(2, '0')),
      fc.constantFrom('9', 'x1', '1x', '123'),
    );
    const fraction = fc.constantFrom('', '.5', ',25', '.2504', '.', '.x', '/');
    const parts = fc.tuple(fc.constantFrom('2026', '2024', '202', '20x6'), fc.nat(13), fc.nat(32), two, two, two);
    fc.assert(
      fc.property(
        parts,
        fraction,
        fc.constantFrom(' ', '  ', '\t', 'T'),
        fc.nat(26),
        (numbers, part, blank, length) => {
          const [year, month, day, hour, minute, second] = numbers.map((n) => String(n).padStart(2, '0'));
          const bytes = Buffer.from(`x${year}-${month}-${day}${blank}${hour}:${minute}:${second}${part} y`);
          const [found, expected] = [usual, other].map((pattern) => {
            const stamp = newStamp();
            const isRead = pattern?.readAt(bytes, 1, Math.min(bytes.length, 1 + length), stamp);
            return isRead ? stamp : null;
          });
          expect(found).toEqual(expected);
        },
      ),
      runs(5000),
    );
  });
});

describe('time patterns', () => {
  it.each([
    [
      '[{year}-{month}-{day} {hour}:{minute}:{second}]',
      '[2026-10-14 21:03:04.250] open',
      '2026-10-14T21:03:04.250Z',
      ' open',
    ],
    [
      '{year}-{month}-{day}T{hour}:{minute}:{second}{offset}',
      '2026-10-14T21:03:04,5+02:00|x',
      '2026-10-14T21:03:04.500Z',
      '|x',
    ],
    ['{day}.{month}.{year2} {hour}h{minute}', '4.1.27  5h07 x', '2027-01-04T05:07:00.000Z', ' x'],
    ['{year}{month}{day}-{hour}{minute}{second}', '20261014-210304 x', '2026-10-14T21:03:04.000Z', ' x'],
    [
      '{weekday} {day} {month-name} {year}, {hour12}:{minute} {am-pm}',
      'Mié 14 octubre 2026, 9:03 p.m. x',
      '2026-10-14T21:03:00.000Z',
      ' x',
    ],
    ['{hour12}:{minute} {am-pm} {month}/{day}/{year}', '12:30 AM 10/14/2026', '2026-10-14T00:30:00.000Z', ''],
    ['{skip} {epoch} ', 'rig7 1792011784.25 x', '2026-10-14T21:03:04.250Z', 'x'],
    ['{epoch-ms};', '1792011784250;x', '2026-10-14T21:03:04.250Z', 'x'],
    ['{hour}:{minute}:{second}', '21:03:04.9999', '1970-01-01T21:03:04.999Z', ''],
    ['{hour}:{minute}:{second}:{fraction}', '21:03:04:25 x', '1970-01-01T21:03:04.250Z', ' x'],
    ['{hour}:{minute}:{second},', '21:03:04,5,x', '1970-01-01T21:03:04.000Z', '5,x'],
    ['{elapsed}', '12.3 s', '1970-01-01T00:00:12.300Z', ' s'],
    ['+{elapsed}', '+1:02:03,25', '1970-01-01T01:02:03.250Z', ''],
    ['{{{hour}:{minute}}}', '{21:03} x', '1970-01-01T21:03:00.000Z', ' x'],
    ['{year}-{month}-{day} {day-second}', '2026-10-14 75784.25 x', '2026-10-14T21:03:04.250Z', ' x'],
    ['day={year}{month}{day} t={day-ms};', 'day=20261014 t=00003250;x', '2026-10-14T00:00:03.250Z', 'x'],
    // The 287th day of 2026 is 14 October (common calendar).
    ['{year}-{day-of-year}:{day-second}', '2026-287:75784', '2026-10-14T21:03:04.000Z', ''],
    ['{year}-{month}-{day} {day-second}', '2026-10-14 86403,5', '2026-10-15T00:00:03.500Z', ''],
    // Day 0 of the 1900 date base system is 30 December 1899; 9999-12-31 23:59:59 is 2 958 465.9999884 (ISO/IEC 29500-1,
    // 18.17.4.1).
    ['{serial-day}', '0', '1899-12-30T00:00:00.000Z', ''],
    ['{serial-day};', '2958465.9999884;x', '9999-12-31T23:59:58.998Z', 'x'],
    ['{serial-day} 0{day-fraction}', '46309 0,75', '2026-10-14T18:00:00.000Z', ''],
    ['{serial-day} {hour}:{minute}', '46309 21:03', '2026-10-14T21:03:00.000Z', ''],
    ['0{day-fraction}', '0.5 x', '1970-01-01T12:00:00.000Z', ' x'],
    ['{day-second}', '75784.25', '1970-01-01T21:03:04.250Z', ''],
    ['{day} {month-name} {hour}:{minute}', '3 märz 21:03', '2000-03-03T21:03:00.000Z', ''],
  ])('%s reads %j', (pattern, text, time, rest) => {
    expect(read(pattern, text)).toMatchObject({ time, rest });
  });

  it.each([
    ['Z', 0],
    ['UTC', 0],
    ['CEST', 120],
    // Central European Time and Summer Time in Czech.
    ['SEČ', 60],
    ['SELČ', 120],
    ['+2', 120],
    ['-0330', -210],
    ['+05:45', 345],
    ['\u221201:00', -60],
  ])('read the offset %s', (text, minutes) => {
    expect(read('{year}-{month}-{day} {hour}:{minute} {offset}', `2026-10-14 21:03 ${text}`)?.offset).toBe(minutes);
  });

  it.each([
    ['{year}-{month}-{day} {hour}:{minute}', '2026-13-14 21:03'],
    ['{year}-{month}-{day} {hour}:{minute}', '2026-02-30 21:03'],
    ['{hour}:{minute}', '25:00'],
    ['{hour12}:{minute} {am-pm}', '13:00 am'],
    ['{hour}:{minute}', 'x21:03'],
    ['{day} {month-name} {year} {hour}:{minute}', '3 smarch 2026 21:03'],
    ['{epoch} ', '99999999999999999999 x'],
    // Codes and counters are not times since 1970.
    ['{epoch} ', '17 x'],
    ['{epoch-ms};', '40012;x'],
    ['{year}-{month}-{day} {day-second}', '2026-10-14 21:03:04'],
    ['{year}-{month}-{day} {day-second}', '2026-10-14 172800'],
  ])('%s refuses %j', (pattern, text) => {
    expect(read(pattern, text)).toBeNull();
  });

  it.each([
    ['{hours}:{minute}', /not known.*\{hour\}/],
    ['{year}-{month}', /must hold/],
    ['{hour}:{minute', /unmatched brace/],
    ['plain', /must hold/],
    ['{hour}:{minute} {day-second}', /replace \{hour\}/],
  ])('%s is refused with the reason', (pattern, reason) => {
    expect(() => new StampPattern(pattern)).toThrow(TimePatternError);
    expect(() => new StampPattern(pattern)).toThrow(reason);
  });

  it('read back what they would print', () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date('2000-01-01T00:00:00Z'), max: new Date('2099-12-31T23:59:59Z'), noInvalidDate: true }),
        (date) => {
          const iso = date.toISOString();
          expect(read('{year}-{month}-{day}T{hour}:{minute}:{second}{offset}', iso)?.time).toBe(iso);
          expect(read('{epoch-ms}', String(date.getTime()))?.time).toBe(iso);
          expect(read('{epoch}', (date.getTime() / 1000).toFixed(3))?.time).toBe(iso);
        },
      ),
    );
  });

  it('never read beyond the end and never throw', () => {
    const part = fc.oneof(
      fc.constantFrom(...TIME_TOKENS.map((token) => `{${token}}`)),
      fc.constantFrom(' ', ':', '-', 'T', '.', ',', 'é'),
    );
    fc.assert(
      fc.property(
        fc.array(part, { maxLength: 10 }),
        fc.uint8Array({ maxLength: 40 }),
        fc.nat(40),
        (parts, bytes, cut) => {
          let pattern: StampPattern;
          try {
            pattern = new StampPattern(parts.join(''));
          } catch (error) {
            expect(error).toBeInstanceOf(TimePatternError);
            return;
          }
          const stamp = newStamp();
          const end = Math.min(cut, bytes.length);
          if (pattern.find(bytes, 0, end, stamp)) {
            expect(stamp.end).toBeLessThanOrEqual(end);
            expect(Number.isSafeInteger(stamp.ms)).toBe(true);
          }
        },
      ),
      runs(1000),
    );
  });
});

describe('month names', () => {
  it.each([
    ['Oct', 10],
    ['october', 10],
    ['Okt.', 10],
    ['octubre', 10],
    ['août', 8],
    ['Mär', 3],
    ['déc.', 12],
    ['Dez', 12],
    ['ene', 1],
    ['jui', 0],
    ['', 0],
  ])('%s is %i', (name, month) => {
    expect(monthNumber(name)).toBe(month);
  });
});

describe('zones', () => {
  it('turn every instant of a year back from its wall clock', () => {
    const zone = zoneByName('Europe/Madrid');
    const format = new Intl.DateTimeFormat('sv-SE', {
      timeZone: 'Europe/Madrid',
      dateStyle: 'short',
      timeStyle: 'medium',
    });
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(2026, 0, 1) / 1000, max: Date.UTC(2027, 0, 1) / 1000 }), (seconds) => {
        const wall = Date.parse(`${format.format(seconds * 1000).replace(' ', 'T')}Z`);
        const instants = zone?.instants(wall);
        expect([instants?.firstMs, instants?.secondMs]).toContain(seconds * 1000);
        expect(instants?.skipped).toBe(false);
      }),
    );
  });

  // Directive 2000/84/EC: summer time ends at 01:00 UTC on the last Sunday of October and begins so in March.
  it('give two instants in the hour that is repeated and say when an hour is skipped', () => {
    const zone = zoneByName('Europe/Madrid');
    expect(zone?.instants(Date.UTC(2026, 9, 25, 2, 30))).toEqual({
      firstMs: Date.UTC(2026, 9, 25, 0, 30),
      secondMs: Date.UTC(2026, 9, 25, 1, 30),
      skipped: false,
    });
    expect(zone?.instants(Date.UTC(2026, 9, 25, 3, 0)).firstMs).toBe(Date.UTC(2026, 9, 25, 2));
    expect(zone?.instants(Date.UTC(2026, 9, 25, 1, 59)).secondMs).toBe(Date.UTC(2026, 9, 24, 23, 59));
    expect(zone?.instants(Date.UTC(2026, 2, 29, 2, 30))).toEqual({
      firstMs: Date.UTC(2026, 2, 29, 1, 30),
      secondMs: Date.UTC(2026, 2, 29, 1, 30),
      skipped: true,
    });
  });

  it.each([
    ['utc', 0],
    ['+02:00', 120],
    ['-3', -180],
    ['UTC+5:30', 330],
  ])('%s is fixed', (name, minutes) => {
    expect(zoneByName(name)?.instants(0).firstMs).toBe(minutes === 0 ? 0 : -minutes * 60_000);
  });

  it.each(['Mars/Olympus', '', 'local', '+99:00'])('%j is none', (name) => {
    expect(zoneByName(name)).toBeNull();
  });
});
