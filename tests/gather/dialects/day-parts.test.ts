import { describe, expect, it } from 'vitest';
import { newStamp, StampPattern } from '../../../src/gather/dialects/time/stamp.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const EVENING_MS = Date.UTC(2026, 9, 14, 20, 50);

/** When each of sixty lines of a night past midnight was written, and what it says. */
const LINES = Array.from({ length: 60 }, (_, i) => {
  const atMs = EVENING_MS + Math.floor(i / 2) * 660_000 + (i % 2) * 600_000;
  return { atMs, hour: new Date(atMs).getUTCHours(), open: i % 2 === 0 };
});

/** What a language calls the parts of a night, and how it writes a time of day. */
interface Manner {
  readonly before?: (hour: number) => string;
  readonly behind?: (hour: number) => string;
  readonly clock: (hour: number, minute: string, second: string) => string;
  readonly open: string;
  readonly closed: string;
}

const colons = (hour: number, minute: string, second: string): string => `${hour}:${minute}:${second}`;
const MANNERS: readonly [string, Manner][] = [
  [
    'Chinese',
    {
      before: (hour) => (hour > 12 ? '晚上' : '凌晨'),
      clock: (hour, minute, second) => `${hour}点${minute}分${second}秒`,
      open: '快门打开',
      closed: '快门关闭',
    },
  ],
  [
    'Japanese',
    {
      before: (hour) => (hour > 12 ? '夜' : '深夜'),
      clock: (hour, minute, second) => `${hour % 12}時${minute}分${second}秒`,
      open: '露出開始',
      closed: '露出終了',
    },
  ],
  [
    'Spanish',
    {
      behind: (hour) => (hour > 12 ? ' de la noche' : ' de la madrugada'),
      clock: colons,
      open: 'se abre el obturador',
      closed: 'se cierra el obturador',
    },
  ],
  [
    'German',
    {
      before: (hour) => (hour > 12 ? 'abends ' : 'nachts '),
      clock: colons,
      open: 'Verschluss offen',
      closed: 'Verschluss zu',
    },
  ],
  [
    'French',
    {
      behind: (hour) => (hour > 12 ? ' du soir' : ' du matin'),
      clock: (hour, minute, second) => `${hour} h ${minute} min ${second} s`,
      open: 'obturateur ouvert',
      closed: 'obturateur fermé',
    },
  ],
  [
    'Dutch',
    {
      behind: (hour) => (hour > 12 ? " 's avonds" : " 's nachts"),
      clock: (hour, minute, second) => `${hour}.${minute}.${second}`,
      open: 'sluiter open',
      closed: 'sluiter dicht',
    },
  ],
];

describe('a clock of twelve hours beside parts of the day', () => {
  it.each(MANNERS)('is read in %s', async (_, { before, behind, clock, open, closed }) => {
    const log = LINES.map(({ atMs, hour, open: opens }) => {
      const [, minute = '', second = ''] = new Date(atMs).toISOString().slice(11, 19).split(':');
      const time = clock(hour % 12 === 0 ? 12 : hour % 12, minute, second);
      return `${before?.(hour) ?? ''}${time}${behind?.(hour) ?? ''}  ${opens ? open : closed}`;
    });
    const { events } = await read(drafted(log).yaml, log.join('\n'), { sessionDate: '2026-10-14', zone: 'utc' });
    expect(events.map(({ atMs }) => atMs)).toEqual(LINES.map(({ atMs }) => atMs));
  });

  it.each([
    ['{am-pm}{hour12}点{minute}分', '晚上12点05分', '00:05'],
    ['{am-pm}{hour12}点{minute}分', '凌晨0点05分', '00:05'],
    ['{am-pm}{hour12}点{minute}分', '晚上21点05分', '21:05'],
    ['{am-pm}{hour12}点{minute}分', '晚上5点05分', '17:05'],
    ['{am-pm}{hour12}点{minute}分', '中午12点05分', '12:05'],
    ['{am-pm}{hour12}点{minute}分', '中午1点05分', '13:05'],
    ['{am-pm}{hour12}時{minute}分', '午後0時05分', '12:05'],
    ['{am-pm}{hour12}時{minute}分', '深夜2時05分', '02:05'],
    ['{hour12}:{minute} {am-pm}', '11:05 de la noche', '23:05'],
    ['{hour12}:{minute} {am-pm}', '4:05 nachts', '04:05'],
    ['{hour12}:{minute} {am-pm}', '11:05 odp.', '23:05'],
    ['{hour12}:{minute} {am-pm}', '9:05 dop.', '09:05'],
    ['{hour12}:{minute} {am-pm}', '9:05 nachm.', '21:05'],
    ['{hour12}:{minute} {am-pm}', '9:05 vm.', '09:05'],
    ['{hour12}:{minute} {am-pm}', '12:05 AM', '00:05'],
    ['{hour12}:{minute} {am-pm}', '12:05 p. m.', '12:05'],
    ['{hour12}:{minute} {am-pm}', '21:05 PM', '21:05'],
    ['{hour12}:{minute}{am-pm}', '12:05a', '00:05'],
    ['{hour12}:{minute}{am-pm}', '11:05p', '23:05'],
  ])('%s reads %s as %s', (pattern, text, time) => {
    const stamp = newStamp();
    const bytes = Buffer.from(text);
    expect(new StampPattern(pattern).readAt(bytes, 0, bytes.length, stamp)).toBe(true);
    expect(new Date(stamp.ms).toISOString().slice(11, 16)).toBe(time);
    expect(stamp.end).toBe(bytes.length);
  });

  it('is found behind the digits as a letter alone, and no word’s beginning is taken for it', () => {
    const night = LINES.map(({ atMs, hour, open }) => {
      const [, minute = '', second = ''] = new Date(atMs).toISOString().slice(11, 19).split(':');
      return `${hour % 12 === 0 ? 12 : hour % 12}:${minute}:${second}${hour < 12 ? 'a' : 'p'}  shutter ${open ? 'open' : 'shut'}`;
    });
    expect(drafted(night).yaml).toContain("'{hour12}:{minute}:{second}{am-pm}'");
    expect(drafted(night.map((line) => line.replace(/[ap] {2}/, 'p1  '))).yaml).not.toContain('{am-pm}');
  });

  it.each(['21:05 AM', '25:05 PM', '9:05 of the clock'])('is not read from %s', (text) => {
    const bytes = Buffer.from(text);
    expect(new StampPattern('{hour12}:{minute} {am-pm}').readAt(bytes, 0, bytes.length, newStamp())).toBe(false);
  });
});

describe('a file whose name stands right behind Chinese words', () => {
  it('is derived from them, and so is the meaning of the words', () => {
    const log = LINES.map(({ atMs, open }, i) => {
      const time = new Date(atMs).toISOString().slice(0, 19);
      return `${time} ${open ? '开始曝光' : `曝光结束,已存为east_${1000 + i}.fits`}`;
    });
    const [begun, saved] = drafted(log).report.rules;
    expect(begun?.events).toEqual([{ event: 'exposure-begin' }]);
    expect(saved?.events).toEqual([{ event: 'exposure-end' }, { event: 'frame-saved' }]);
    expect(saved?.when).toContain('已存为(?<file>');
  });
});
