import { describe, expect, it } from 'vitest';
import { clockOf, nightTitle } from '../../src/vocabulary/index.js';

const at = Date.parse;

describe('clockOf', () => {
  it('shows local time and its distance from UTC', () => {
    const clock = clockOf('Europe/Madrid');
    expect(clock.time(at('2026-10-14T19:42:10Z'))).toBe('21:42');
    expect(clock.seconds(at('2026-10-14T19:42:10Z'))).toBe('21:42:10');
    expect(clock.offset(at('2026-10-14T19:42:10Z'))).toBe('UTC+2');
    expect(clock.date(at('2026-10-14T23:30:00Z'))).toBe('15 October 2026');
  });

  it('follows the change of the clocks within a night', () => {
    const clock = clockOf('Europe/Madrid');
    expect(clock.time(at('2026-10-25T00:30:00Z'))).toBe('02:30');
    expect(clock.time(at('2026-10-25T01:30:00Z'))).toBe('02:30');
    const hours = clock
      .ticks(at('2026-10-24T23:50:00Z'), at('2026-10-25T02:10:00Z'), 60)
      .map((tick) => clock.time(tick));
    expect(hours).toEqual(['02:00', '02:00', '03:00']);
  });

  it('says which of the two an hour is that comes twice, and of no other', () => {
    // Madrid went back from 03:00 (UTC+2) to 02:00 (UTC+1) at 01:00 UTC; tz database.
    const clock = clockOf('Europe/Madrid');
    const said = ['23:59:59', '00:00:00', '00:59:59', '01:00:00', '01:59:59', '02:00:00'].map((time) =>
      clock.seconds(at(`2026-10-${time.startsWith('23') ? 24 : 25}T${time}Z`)),
    );
    expect(said).toEqual([
      '01:59:59',
      '02:00:00 (UTC+2)',
      '02:59:59 (UTC+2)',
      '02:00:00 (UTC+1)',
      '02:59:59 (UTC+1)',
      '03:00:00',
    ]);
    expect(clock.moment(at('2026-10-25T01:30:00Z'))).toBe('02:30 (UTC+1)');
    expect(clock.moment(at('2026-10-26T01:30:00Z'))).toBe('02:30');
    // Put forward, no hour comes twice; on Lord Howe Island half an hour does.
    expect(clock.moment(at('2026-03-29T01:30:00Z'))).toBe('03:30');
    const island = clockOf('Australia/Lord_Howe');
    expect(island.moment(at('2026-04-04T14:29:00Z'))).toBe('01:29');
    expect(island.moment(at('2026-04-04T14:31:00Z'))).toBe('01:31 (UTC+11)');
    expect(island.moment(at('2026-04-04T15:01:00Z'))).toBe('01:31 (UTC+10:30)');
    expect(island.moment(at('2026-04-04T15:31:00Z'))).toBe('02:01');
  });

  it('finds whole hours where the zone is off by a part of one', () => {
    const clock = clockOf('Asia/Kathmandu');
    expect(clock.offset(at('2026-10-14T00:00:00Z'))).toBe('UTC+5:45');
    for (const tick of clock.ticks(at('2026-10-14T12:00:00Z'), at('2026-10-14T18:00:00Z'), 60))
      expect(clock.time(tick)).toMatch(/:00$/);
    expect(clock.ticks(at('2026-10-14T12:00:00Z'), at('2026-10-14T18:00:00Z'), 60)).toHaveLength(6);
  });

  it('shows a zone behind UTC with a true minus', () => {
    expect(clockOf('America/St_Johns').offset(at('2026-01-10T00:00:00Z'))).toBe('UTC−3:30');
  });

  it('keeps to UTC where the zone is not known', () => {
    const clock = clockOf('Nowhere/Land');
    expect(clock.zone).toBe('UTC');
    expect(clock.time(at('2026-10-14T19:42:10Z'))).toBe('19:42');
  });
});

describe('nightTitle', () => {
  it.each([
    ['2026-10-19', '19 to 20 October 2026'],
    ['2026-10-31', '31 October to 1 November 2026'],
    ['2026-12-31', '31 December 2026 to 1 January 2027'],
    ['2028-02-28', '28 to 29 February 2028'],
  ])('%s', (date, title) => {
    expect(nightTitle(date)).toBe(title);
  });
});
