import { describe, expect, it } from 'vitest';
import { draftDialect } from '../../../src/gather/dialects/index.js';
import { drafted, sampleOf } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 19:42:00 UTC, the evening's 21:42 in Madrid. */
const T0 = Date.UTC(2026, 9, 14, 19, 42);
/** Seconds after that instant at which exposures of five minutes begin, past midnight. */
const SHOTS = Array.from({ length: 30 }, (_, i) => 12 + i * 312);

/** A stamp by the seconds since the first instant. */
type StampOf = (seconds: number) => string;

/** A clock some hours ahead of UTC. */
function clockOf(hours: number, form: (at: Date) => string): StampOf {
  return (seconds) => form(new Date(T0 + hours * 3_600_000 + seconds * 1000));
}
const local = (seconds: number): Date => new Date(T0 + 2 * 3_600_000 + seconds * 1000);
const sidereal = (seconds: number): Date => new Date(T0 + 7 * 3_600_000 + seconds * 1.002_737_909 * 1000);
const DAY_S = 86_400;
const iso = (at: Date): string => at.toISOString().slice(0, 19).replace('T', ' ');
const spelt = (at: Date): string =>
  iso(at)
    .slice(11)
    .replace(/^(..):(..):(..)$/, '$1h$2m$3s');
const minutes = (at: Date): string => compact(at).slice(0, 4);
const compact = (at: Date): string => iso(at).slice(11).replaceAll(':', '');

/** Lines of prose. */
function logOf(head: readonly string[], stamp: StampOf): string[] {
  return [
    ...head,
    ...SHOTS.flatMap((s) => [
      `${stamp(s)}  exposure started, 300 s, filter Ha`,
      `${stamp(s + 300)}  exposure finished`,
      `${stamp(s + 301)}  dithering by 3.1 px`,
      `${stamp(s + 309)}  settled after 8.0 s`,
    ]),
  ];
}

/** The same as pairs with a sentence in a field of its own. */
function pairsOf(head: readonly string[], stamp: StampOf): string[] {
  return logOf(head, stamp).map((line, i) => line.replace(/^(\S+(?: \S+)*) {2}(.*)$/, `n=${i} at="$1" text="$2"`));
}

async function begins(lines: readonly string[], name = 'night.log'): Promise<{ yaml: string; found: number[] }> {
  const { yaml } = drafted(lines, name);
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'Europe/Madrid', name });
  return {
    yaml,
    found: events.flatMap(({ event, atMs }) => (event === 'exposure-begin' ? [Math.round((atMs - T0) / 1000)] : [])),
  };
}

describe('the clock of a log', () => {
  it.each([
    ['names its zone in the head', logOf(['timezone: Atlantic/Canary'], clockOf(1, iso))],
    ['is kept on winter time, as the head says', logOf(['alle Zeiten in MEZ'], clockOf(1, iso))],
    ['is that of Japan', logOf(['時刻は日本時間'], clockOf(9, iso))],
    [
      'is universal time by a letter behind six digits',
      logOf(
        [],
        clockOf(0, (at) => `${compact(at)}Z`),
      ),
      20261014,
    ],
    [
      'counts days since the beginning',
      logOf(['log started 2026-10-14 21:42:00, times in days'], (s) => (s / 86_400).toFixed(6)),
    ],
    [
      'counts minutes, whatever its lines say of seconds',
      logOf(['ログ開始 2026-10-14 21:42:00', '時間は開始からの分'], (s) => `${(s / 60).toFixed(3)}\n`)
        .flatMap((line) => line.split('\n'))
        .map((line) => line.replace(/ {2}(settled after )(.*) s$/, '    $1$2 秒')),
    ],
    [
      'counts behind the priority of a message',
      logOf(['start, zero is 2026-10-14T19:42:00Z'], (s) => `<${4 + (s % 3)}>[${s.toFixed(3).padStart(12)}]`),
    ],
    [
      'has whole modified Julian days beside universal time',
      pairsOf(
        [],
        (s) => `${61327 + Math.floor((19.7 * 3600 + s) / DAY_S)}" ut="${iso(new Date(T0 + s * 1000)).slice(11)}`,
      ),
    ],
    [
      'has units that a length may have, where rows are written when steps are over',
      logOf(['nuit du 14 au 15 octobre 2026'], clockOf(2, spelt)).flatMap((line, i, all) =>
        i % 4 === 1 ? [all[i + 1] ?? '', line] : i % 4 === 2 ? [] : [line],
      ),
    ],
    [
      'is in a field before sentences in a field of the name text',
      pairsOf(['# log started 2026-10-14 21:42:00'], (s) => s.toFixed(1)),
    ],
  ] as const)('%s', async (_, lines, day?: number) => {
    const { yaml, found } = await begins(lines, day === undefined ? undefined : `night-${day}.log`);
    expect(found, yaml).toEqual(SHOTS);
  });

  it.each([
    ['hours and minutes run together', logOf(['night of 14 October 2026'], clockOf(2, minutes)), 60],
    [
      'a sidereal clock behind it',
      logOf(['date 2026-10-14'], (s) => `[${iso(local(s)).slice(11)} LST ${iso(sidereal(s)).slice(11)}]`),
    ],
    [
      'their date at the foot',
      [
        ...logOf(
          [],
          clockOf(2, (at) => iso(at).slice(11)),
        ),
        'night of 14 October 2026',
      ],
    ],
    ['a sidereal clock in front', logOf([], (s) => `LST ${iso(sidereal(s)).slice(11)} ${iso(local(s))}`)],
    [
      'the month first, as halves of the day have it in English',
      logOf([], (s) => {
        const at = local(s - 3 * DAY_S);
        return `${at.toLocaleDateString('en-US', { timeZone: 'UTC' })} ${at.toLocaleTimeString('en-US', { timeZone: 'UTC' })}`;
      }),
      1,
      -3 * DAY_S,
    ],
  ] as const)('may have %s', async (_, lines, unitS: number = 1, awayS: number = 0) => {
    const { yaml, found } = await begins(lines);
    expect(found, yaml).toEqual(SHOTS.map((s) => Math.floor((s + awayS) / unitS) * unitS));
  });

  it.each([
    ['a zone in which it would be day', logOf([], clockOf(14, iso)), 'exposures begin between 9:30 and 15:30'],
    [
      'sidereal time',
      logOf(
        ['times are sidereal', '2026-10-14'],
        clockOf(7, (at) => iso(at).slice(11)),
      ),
      'sidereal',
    ],
    [
      'a date on every line that nothing can read',
      logOf([], (s) => `${iso(local(s)).slice(8, 10)}.vinotok ${iso(local(s)).slice(11)}`),
      'prints a date that the draft does not read, "14.vinotok"',
    ],
    [
      'a date over each day that nothing can read',
      logOf([], (s) => iso(local(s)).slice(11)).flatMap((line, i, all) => {
        const isNext = i === 0 || line.slice(0, 2) < (all[i - 1] ?? '').slice(0, 2);
        return isNext && /^(?:21|00)/.test(line) ? [`page of vinotok-${i === 0 ? 14 : 15}`, line] : [line];
      }),
      'prints a date that the draft does not read, "page of vinotok-14"',
    ],
    [
      'the morning, with the date of its head on the lines themselves',
      [
        'times are UTC+9',
        'begun 2026年10月15日',
        ...logOf(
          [],
          clockOf(9, (at) => iso(at).slice(11)),
        ).map((line) => `${line} (2026年10月15日)`),
      ],
      'prints a date that the draft does not read, "2026年10月15日"',
    ],
    [
      'a clock that was set right in the night',
      logOf([], clockOf(2, iso)).flatMap((line, i) =>
        i === 60 ? [line, `${line.slice(0, 19)}  clock set by the radio, it was 2 min 38 s slow`] : [line],
      ),
      'line 62 says that the clock was wrong by 158 s until then',
    ],
  ] as const)('is left out and said not to be understood where it is that of %s', async (_, lines, why) => {
    const { yaml, found } = await begins(lines);
    expect(yaml.split('\n').slice(1, 3).join('\n')).toContain('THE CLOCK OF THIS LOG IS NOT UNDERSTOOD');
    expect(yaml).toContain(why);
    expect(found).toEqual([]);
  });

  it('has the date of the night, whatever it prints, where frames begin as its exposures do', () => {
    const lines = logOf([], (s) => `${iso(local(s)).slice(8, 10)}.vinotok ${iso(local(s)).slice(11)}`);
    const frames = SHOTS.map((s, i) => ({
      file: `${i}.fits`,
      beginMs: T0 + 2 * 3_600_000 + s * 1000 + 40 * DAY_S * 1000,
      seconds: 300,
    }));
    const { report } = draftDialect(sampleOf(lines), { frames });
    expect(report.clockDoubts).toBeUndefined();
    expect(report.date).toEqual({ from: 'session' });
  });

  it('has the date of its day over the lines, the newest first, by another day of the week over each', async () => {
    const lines = logOf([], (s) => iso(local(s)).slice(11)).toReversed();
    const next = lines.findIndex((line) => line.startsWith('23'));
    const { yaml, found } = await begins([
      'What happened last night, newest first',
      'Thu, 15 Oct 2026',
      ...lines.slice(0, next),
      'Wed, 14 Oct 2026',
      ...lines.slice(next),
    ]);
    expect(
      found.toSorted((a, b) => a - b),
      yaml,
    ).toEqual(SHOTS);
  });

  it('may show minutes alone: what takes seconds began with nothing in the minute before', async () => {
    const lines = logOf(
      [],
      clockOf(2, (at) => iso(at).slice(0, 16)),
    );
    const { yaml } = drafted(lines);
    expect(yaml).toContain('settling-end');
    const { events } = await read(yaml, `${lines.join('\n')}\n`);
    expect(events.filter(({ atMs }) => atMs % 60_000 !== 0)).toEqual([]);
  });
});
