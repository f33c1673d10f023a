import { DateTime } from 'luxon';

/** A line of a log before it is stamped. */
export interface Unstamped {
  readonly atMs: number;
  readonly text: string;
}

/** A log: the name of its file, and its lines. */
export interface Stamped {
  readonly name: string;
  readonly lines: readonly string[];
}

/** A way to tell time in a log, which every careful reader understands. */
export interface StampStyle {
  readonly id: string;
  write(lines: readonly Unstamped[]): Stamped;
}

const ZONE = 'Europe/Madrid';
const DAY_MS = 86_400_000;
const local = (atMs: number, form: string): string =>
  DateTime.fromMillis(atMs, { zone: ZONE, locale: 'en' }).toFormat(form);
const utc = (atMs: number, form: string): string =>
  DateTime.fromMillis(atMs, { zone: 'utc', locale: 'en' }).toFormat(form);
const two = (value: number): string => String(value).padStart(2, '0');
const whole = (atMs: number): number => Math.floor(atMs / 1000) * 1000;

/** Seconds since local midnight of the evening. */
const sinceEvening = (atMs: number, startMs: number): number =>
  Math.floor((atMs - DateTime.fromMillis(startMs, { zone: ZONE }).startOf('day').toMillis()) / 1000);

const clock = (seconds: number, pad = false): string => {
  const all = Math.floor(seconds);
  const hours = Math.floor(all / 3600);
  return `${pad ? two(hours) : hours}:${two(Math.floor(all / 60) % 60)}:${two(all % 60)}`;
};

/** Greenwich mean sidereal time, linear part (Meeus, Astronomical Algorithms, 12.4). */
const sidereal = (atMs: number): string =>
  clock((((280.46061837 + 360.98564736629 * (atMs / DAY_MS + 2_440_587.5 - 2_451_545)) % 360) / 360) * 86_400, true);

const startOf = (lines: readonly Unstamped[]): number => lines[0]?.atMs ?? 0;

/** The same stamp in front of each line, under these lines at the head. */
function inFront(
  id: string,
  stamp: (atMs: number, startMs: number) => string,
  head: (startMs: number) => readonly string[] = () => [],
  suffix: (startMs: number) => string = () => '',
): StampStyle {
  return {
    id,
    write: (lines) => {
      const startMs = startOf(lines);
      return {
        name: `log${suffix(startMs)}.log`,
        lines: [...head(startMs), ...lines.map(({ atMs, text }) => `${stamp(atMs, startMs)} ${text}`)],
      };
    },
  };
}

/** The stamp elsewhere in the line. */
function around(
  id: string,
  print: (text: string, atMs: number, startMs: number) => string,
  head: (startMs: number) => readonly string[] = () => [],
): StampStyle {
  return {
    id,
    write: (lines) => ({
      name: 'log.log',
      lines: [...head(startOf(lines)), ...lines.map(({ atMs, text }) => print(text, atMs, startOf(lines)))],
    }),
  };
}

/** Counts under a line that states what they count from. */
const counted = (
  id: string,
  count: (ms: number) => string,
  base: (zeroMs: number) => string = (zeroMs) => `started ${local(zeroMs, 'yyyy-MM-dd HH:mm:ss')}`,
  zeroOf = (startMs: number): number => whole(startMs) - 4000,
): StampStyle =>
  inFront(
    id,
    (atMs, startMs) => count(atMs - zeroOf(startMs)),
    (startMs) => [base(zeroOf(startMs))],
  );

const evening = (startMs: number): string[] => [`Observing night of ${local(startMs, 'yyyy-MM-dd')}`];

const universal = (startMs: number): string[] => [...evening(startMs), 'first of all: clocks in UT'];

/** Stamps whose text alone is unusual, with the date in the line. */
const DATED: readonly StampStyle[] = [
  inFront('iso-compact', (atMs) => utc(atMs, "yyyyMMdd'T'HHmmss'Z'")),
  inFront('iso-compact-local', (atMs) => local(atMs, "yyyyMMdd'T'HHmmss.SSS")),
  inFront('iso-offset', (atMs) => local(atMs, "yyyy-MM-dd'T'HH:mm:ssZZ")),
  inFront('iso-offset-hours', (atMs) => `${utc(atMs, 'yyyy-MM-dd HH:mm:ss.SSS')}+00`),
  inFront('iso-behind-a-name', (atMs) => `time:${local(atMs, "yyyy-MM-dd'T'HH:mm:ss.SSSZZZ")}`),
  inFront('slashes', (atMs) => local(atMs, 'yyyy/MM/dd HH:mm:ss')),
  inFront('dots', (atMs) => local(atMs, 'dd.MM.yyyy HH:mm:ss')),
  inFront('dots-dotted', (atMs) => local(atMs, 'dd.MM.yyyy HH.mm.ss')),
  inFront('year-dots', (atMs) => local(atMs, 'yyyy.MM.dd HH:mm:ss.SSS')),
  inFront('month-first', (atMs) => local(atMs, 'MM/dd/yyyy hh:mm:ss a')),
  inFront('month-name-short-year', (atMs) => local(atMs, 'dd-LLL-yy HH:mm:ss')),
  inFront('month-name', (atMs) => local(atMs, 'dd-LLL-yyyy HH:mm:ss')),
  inFront('month-name-year-last', (atMs) => local(atMs, 'EEE LLL dd HH:mm:ss yyyy')),
  inFront('day-first-zone', (atMs) => local(atMs, "EEE dd. LLL HH:mm:ss 'CEST' yyyy")),
  inFront('month-name-other-zone', (atMs) => local(atMs, "EEE LLL dd HH:mm:ss 'XYZ' yyyy")),
  inFront('month-name-zone', (atMs) => local(atMs, "EEE LLL dd HH:mm:ss 'CEST' yyyy")),
  inFront(
    'month-name-no-year',
    (atMs) => local(atMs, 'LLL dd HH:mm:ss'),
    (startMs) => [`Log opened in ${local(startMs, 'yyyy')}`],
  ),
  inFront(
    'month-day-no-year',
    (atMs) => local(atMs, 'MM-dd HH:mm:ss.SSS'),
    () => [],
    (startMs) => local(startMs, '_yyyy'),
  ),
  {
    id: 'month-name-year-stamped',
    write: (lines) => ({
      name: 'log.log',
      lines: [
        `${local(startOf(lines), 'LLL dd HH:mm:ss')} tower[88]: up, it is ${local(startOf(lines), 'yyyy')}, local time`,
        ...lines.map(({ atMs, text }) => `${local(atMs, 'LLL dd HH:mm:ss')} tower[88]: ${text}`),
      ],
    }),
  },
  inFront(
    'month-day-by-characters',
    (atMs) => local(atMs, 'M月d日HH时mm分ss秒'),
    (startMs) => [`${local(startMs, 'yyyy')}年`],
  ),
  inFront(
    'day-of-year-alone',
    (atMs) => utc(atMs, 'ooo/HH:mm:ss.S'),
    (startMs) => ['scale of time = UTC', `year = ${local(startMs, 'yyyy')}`],
  ),
  inFront('era', (atMs) => `令和${Number(local(atMs, 'yyyy')) - 2018}年${local(atMs, 'M月d日 HH時mm分ss秒')}`),
  inFront('day-of-year', (atMs) => local(atMs, "yyyy-ooo'T'HH:mm:ss")),
  inFront('day-of-year-slash', (atMs) => local(atMs, 'yyyy/ooo HH:mm:ss')),
  inFront('day-of-year-dots', (atMs) => local(atMs, 'yyyy.ooo.HH.mm.ss')),
  inFront('day-of-year-digits', (atMs) => local(atMs, 'yyyyooo HHmmss')),
  inFront('day-of-year-colons', (atMs) => local(atMs, 'yyyy:ooo:HH:mm:ss.S')),
  inFront('milliseconds-after-colon', (atMs) => local(atMs, 'yyyy-MM-dd HH:mm:ss:SSS')),
  inFront('two-digit-year-slashes', (atMs) => local(atMs, 'yy/MM/dd HH:mm:ss')),
  inFront('epoch-float', (atMs) => (atMs / 1000).toFixed(3)),
  inFront('epoch-ms', (atMs) => String(atMs)),
  inFront('epoch-us', (atMs) => `${atMs}000`),
  inFront('epoch-ns', (atMs) => `${atMs}000000`),
  inFront('epoch-at', (atMs) => `@${(atMs / 1000).toFixed(3)}`),
  inFront('julian', (atMs) => `JD ${(atMs / DAY_MS + 2_440_587.5).toFixed(6)}`),
  inFront('mjd', (atMs) => (atMs / DAY_MS + 40_587).toFixed(6)),
  inFront('zone-letters', (atMs) => `${local(atMs, 'yyyy-MM-dd HH:mm:ss')} CEST`),
  inFront('underscores', (atMs) => local(atMs, 'yyyy-MM-dd_HH-mm-ss')),
  inFront('hours-spelt', (atMs) => local(atMs, "yyyy-MM-dd HH'h'mm'm'ss's'")),
  inFront('comma-between', (atMs) => local(atMs, 'dd LLL yyyy, HH:mm:ss')),
  inFront('time-before-date', (atMs) => local(atMs, 'HH:mm:ss dd/MM/yyyy')),
  inFront(
    'day-with-fraction',
    (atMs) => `${utc(atMs, 'yyyy-MM-dd')}${((atMs % DAY_MS) / DAY_MS).toFixed(6).slice(1)}`,
    () => ['times in UT, days with decimals'],
  ),
];

/** Seconds since the midnight before. */
const sinceMidnight = (atMs: number): number =>
  (atMs - DateTime.fromMillis(atMs, { zone: ZONE }).startOf('day').toMillis()) / 1000;

/** A date, and what has passed of its day. */
const SECONDS_OF_DAY: readonly StampStyle[] = [
  inFront('day-seconds', (atMs) => `${local(atMs, 'yyyy-MM-dd')} ${sinceMidnight(atMs).toFixed(1)}`),
  inFront('day-seconds-whole', (atMs) => `${local(atMs, 'dd/MM/yyyy')} ${Math.floor(sinceMidnight(atMs))}`),
  inFront(
    'day-seconds-padded',
    (atMs) => `[${local(atMs, 'yyyyMMdd')}-${sinceMidnight(atMs).toFixed(3).padStart(9, '0')}]`,
  ),
  inFront('day-seconds-named', (atMs) => `day=${local(atMs, 'yyyy-MM-dd')} sod=${sinceMidnight(atMs).toFixed(2)}`),
  inFront('day-seconds-of-year', (atMs) => `${local(atMs, 'yyyy-ooo')}:${sinceMidnight(atMs).toFixed(1)}`),
  inFront('day-milliseconds', (atMs) => `${local(atMs, 'yyyy-MM-dd')} +${Math.floor(sinceMidnight(atMs) * 1000)}`),
  inFront('day-seconds-headings', (atMs) => sinceMidnight(atMs).toFixed(1), evening),
  inFront('day-milliseconds-head', (atMs) => String(Math.floor(sinceMidnight(atMs) * 1000)), evening),
  inFront(
    'day-seconds-name',
    (atMs) => sinceMidnight(atMs).toFixed(1),
    () => [],
    (startMs) => local(startMs, '_yyyy-MM-dd'),
  ),
  inFront('day-seconds-going-on', (atMs, startMs) => `${local(startMs, 'yyyy-MM-dd')} ${sinceEvening(atMs, startMs)}`),
];

const OF_DAY: readonly StampStyle[] = [
  inFront('of-day-head', (atMs) => local(atMs, 'HH:mm:ss'), evening),
  inFront(
    'of-day-name',
    (atMs) => local(atMs, 'HH:mm:ss.SSS'),
    () => [],
    (startMs) => local(startMs, '_yyyy-MM-dd'),
  ),
  inFront('of-day-12-hours', (atMs) => local(atMs, 'h:mm:ss a'), evening),
  inFront('of-day-dotted', (atMs) => local(atMs, 'HH.mm.ss'), evening),
  inFront('of-day-quoted', (atMs) => local(atMs, "HH'h'mm''ss"), evening),
  inFront('of-day-compact', (atMs) => local(atMs, 'HHmmss'), evening),
  inFront('of-day-compact-fraction', (atMs) => local(atMs, 'HHmmss.SSS'), evening),
  inFront('of-day-colon-fraction', (atMs) => local(atMs, 'HH:mm:ss:SSS'), evening),
  inFront('of-day-zone', (atMs) => `${utc(atMs, 'HH:mm:ss')} UT`, evening),
  inFront(
    'of-day-two-days-in-head',
    (atMs) => local(atMs, 'HH:mm:ss'),
    (startMs) => [`Night ${local(startMs, 'd')}/${local(startMs + DAY_MS, 'd LLLL yyyy')}, Cierzo Hill`],
  ),
  inFront('night-hours', (atMs, startMs) => clock(sinceEvening(atMs, startMs), true), evening),
  inFront(
    'night-hours-name',
    (atMs, startMs) => clock(sinceEvening(atMs, startMs), true),
    () => [],
    (startMs) => local(startMs, '_yyyyMMdd'),
  ),
  inFront('decimal-hours', (atMs, startMs) => (sinceEvening(atMs, startMs) / 3600).toFixed(5), evening),
  {
    id: 'headings',
    write: (lines) => {
      let day = '';
      return {
        name: 'log.log',
        lines: lines.flatMap(({ atMs, text }) => {
          const own = local(atMs, 'cccc d LLLL yyyy');
          const heading = own === day ? [] : ['', `== ${own} ==`];
          day = own;
          return [...heading, `${local(atMs, 'HH:mm:ss')} ${text}`];
        }),
      };
    },
  },
  {
    id: 'headings-yearless',
    write: (lines) => {
      let day = '';
      return {
        name: 'log_2026.log',
        lines: lines.flatMap(({ atMs, text }) => {
          const own = local(atMs, 'cccc d LLLL');
          const heading = own === day ? [] : ['', `--- ${own} ---`];
          day = own;
          return [...heading, `${local(atMs, 'HH:mm:ss')} ${text}`];
        }),
      };
    },
  },
  {
    id: 'day-change-lines',
    write: (lines) => {
      let day = '';
      return {
        name: 'log.log',
        lines: lines.flatMap(({ atMs, text }) => {
          const own = local(atMs, 'yyyy-MM-dd');
          const heading = own === day ? [] : [`${local(atMs, 'HH:mm:ss')} new day ${own}`];
          day = own;
          return [...heading, `${local(atMs, 'HH:mm:ss')} ${text}`];
        }),
      };
    },
  },
];

const COUNTS: readonly StampStyle[] = [
  counted('elapsed-seconds', (ms) => (ms / 1000).toFixed(1)),
  counted('elapsed-brackets', (ms) => `[${(ms / 1000).toFixed(3).padStart(11)}]`),
  counted('elapsed-clock', (ms) => clock(ms / 1000)),
  counted('elapsed-clock-padded', (ms) => clock(ms / 1000, true)),
  counted('elapsed-clock-fraction', (ms) => `${clock(ms / 1000, true)}.${String(ms % 1000).padStart(3, '0')}`),
  counted('elapsed-clock-plus', (ms) => `+${clock(ms / 1000, true)}`),
  counted('elapsed-clock-t', (ms) => `T+${clock(ms / 1000, true)}`),
  counted('elapsed-minutes', (ms) => `${Math.floor(ms / 60_000)}:${two(Math.floor(ms / 1000) % 60)}`),
  counted('elapsed-ms', (ms) => String(ms)),
  counted('elapsed-ms-zeros', (ms) => String(ms).padStart(9, '0')),
  counted('elapsed-ms-unit', (ms) => `${ms} ms`),
  counted(
    'elapsed-ticks',
    (ms) => String(Math.floor(ms / 100)),
    (zeroMs) => `tick 0 = ${utc(zeroMs, "yyyy-MM-dd'T'HH:mm:ss'Z'")}, one tick is 0.1 s`,
  ),
  counted(
    'elapsed-ticks-rate',
    (ms) => `#${Math.floor(ms / 10)}`,
    (zeroMs) => `tick 0 at ${utc(zeroMs, 'yyyy-MM-dd HH:mm:ss')} UTC, 100 ticks per second`,
  ),
  counted(
    'elapsed-minutes-decimal',
    (ms) => (ms / 60_000).toFixed(3),
    (zeroMs) => `minutes since ${local(zeroMs, 'dd.MM.yyyy HH:mm:ss')}`,
  ),
  counted(
    'elapsed-hours-decimal',
    (ms) => (ms / 3_600_000).toFixed(5),
    (zeroMs) => `hours since ${local(zeroMs, 'dd.MM.yyyy HH:mm:ss')}`,
  ),
  counted('elapsed-spelt', (ms) => {
    const s = Math.floor(ms / 1000);
    return `+${Math.floor(s / 3600)}h${two(Math.floor(s / 60) % 60)}m${two(s % 60)}s`;
  }),
  counted('elapsed-spelt-to-the-minute', (ms) => {
    const s = Math.floor(ms / 1000);
    return `${Math.floor(s / 3600)}h${two(Math.floor(s / 60) % 60)}m${two(s % 60)}.${Math.floor((ms % 1000) / 100)}`;
  }),
  counted('elapsed-spelt-blanks', (ms) => {
    const s = Math.floor(ms / 1000);
    return `${Math.floor(s / 3600)} h ${two(Math.floor(s / 60) % 60)} min ${two(s % 60)} s`;
  }),
  ...[
    (zeroMs: number) =>
      `Chrono lancé le ${local(zeroMs, 'd')} octobre ${local(zeroMs, "yyyy 'à' H 'h' mm 'min' ss 's'")}`,
    (zeroMs: number) => `Ab hier zählt es: ${local(zeroMs, "d.M.yyyy, H 'Uhr' mm 'und' ss 'Sekunden'")}`,
    (zeroMs: number) => `counting from ${local(zeroMs, "d LLLL yyyy, H 'hours' mm 'minutes' ss 'seconds'")}`,
  ].map((base, i) =>
    counted(`elapsed-base-in-words-${i + 1}`, (ms) => `${clock(ms / 1000)},${Math.floor((ms % 1000) / 100)}`, base),
  ),
  counted(
    'elapsed-from-epoch',
    (ms) => (ms / 1000).toFixed(2),
    (zeroMs) => `t0 = ${zeroMs / 1000}`,
  ),
  counted(
    'elapsed-head-of-day',
    (ms) => clock(ms / 1000, true),
    (zeroMs) => `Evening of ${local(zeroMs, 'd LLLL yyyy')}, counting from ${local(zeroMs, 'HH:mm:ss')}`,
  ),
  counted(
    'elapsed-midnight',
    (ms) => (ms / 1000).toFixed(1),
    (zeroMs) => `seconds since midnight of ${local(zeroMs, 'yyyy-MM-dd')}`,
    (startMs) => DateTime.fromMillis(startMs, { zone: ZONE }).startOf('day').toMillis(),
  ),
  {
    id: 'elapsed-stamped-base',
    write: (lines) => {
      const zeroMs = whole(startOf(lines)) - 2000;
      return {
        name: 'log.log',
        lines: [
          `00:00:00 clock set, it is ${local(zeroMs, 'yyyy-MM-dd HH:mm:ss')} now`,
          ...lines.map(({ atMs, text }) => `${clock((atMs - zeroMs) / 1000, true)} ${text}`),
        ],
      };
    },
  },
  {
    id: 'elapsed-base-of-day-date-elsewhere',
    write: (lines) => {
      const zeroMs = whole(startOf(lines)) - 2000;
      return {
        name: `log-${local(zeroMs, 'yyyy-MM-dd')}.log`,
        lines: [
          `program start at ${local(zeroMs, 'HH:mm:ss')}, clock runs from there`,
          ...lines.map(({ atMs, text }) => `${((atMs - zeroMs) / 1000).toFixed(1).padStart(8)} ${text}`),
        ],
      };
    },
  },
];

const ELSEWHERE: readonly StampStyle[] = [
  around('at-the-end', (text, atMs) => `${text} [${local(atMs, 'yyyy-MM-dd HH:mm:ss')}]`),
  around('at-the-end-of-day', (text, atMs) => `${text} @ ${local(atMs, 'HH:mm:ss')}`, evening),
  around('at-the-end-padded', (text, atMs) => `${text.padEnd(190)} ${local(atMs, 'HH:mm:ss')}`, evening),
  around('at-the-end-epoch', (text, atMs) => `${text} (t=${(atMs / 1000).toFixed(2)})`),
  around(
    'at-the-end-elapsed',
    (text, atMs, startMs) => `${text} | +${((atMs - whole(startMs)) / 1000).toFixed(1)}`,
    (startMs) => [`begun ${local(startMs, 'yyyy-MM-dd HH:mm:ss')}`],
  ),
  around('uptime-then-wall', (text, atMs, startMs) => {
    const up = ((atMs - startMs) / 1000 + 12.3).toFixed(3);
    return `[${up.padStart(12)}] ${local(atMs, 'yyyy-MM-dd HH:mm:ss')} ${text}`;
  }),
  around(
    'uptime-then-of-day',
    (text, atMs, startMs) => `${((atMs - startMs) / 1000 + 12.3).toFixed(3)} ${local(atMs, 'HH:mm:ss')} ${text}`,
    evening,
  ),
  around('wall-then-uptime', (text, atMs, startMs) => {
    const up = Math.floor((atMs - startMs) / 1000 + 12.3);
    return `${local(atMs, 'yyyy-MM-dd HH:mm:ss')} up=${up} ${text}`;
  }),
  around(
    'of-day-then-uptime-clock',
    (text, atMs, startMs) => `${local(atMs, 'HH:mm:ss')} (${clock((atMs - startMs) / 1000 + 12, true)}) ${text}`,
    evening,
  ),
  around(
    'uptime-clock-then-of-day',
    (text, atMs, startMs) => `${clock((atMs - startMs) / 1000 + 12, true)} ${local(atMs, 'HH:mm:ss')} ${text}`,
    evening,
  ),
  around('of-day-then-sidereal', (text, atMs) => `${utc(atMs, 'HH:mm:ss')} [${sidereal(atMs)}] ${text}`, universal),
  around('sidereal-then-of-day', (text, atMs) => `${sidereal(atMs)} | ${utc(atMs, 'HH:mm:ss')} | ${text}`, universal),
  around('local-then-utc', (text, atMs) => `${local(atMs, 'yyyy-MM-dd HH:mm:ss')} (${utc(atMs, 'HH:mm:ss')}Z) ${text}`),
  around(
    'number-then-stamp',
    (text, atMs) => `#${Math.floor(atMs / 7000) % 90000} ${local(atMs, 'yyyy-MM-dd HH:mm:ss')} ${text}`,
  ),
  around(
    'level-then-stamp',
    (text, atMs) =>
      `${['INFO', 'WARN', 'DEBUG'][Math.floor(atMs / 1000) % 3]} ${local(atMs, 'yyyy-MM-dd HH:mm:ss')} ${text}`,
  ),
  around('pid-in-front', (text, atMs) => `tower[4711]: ${local(atMs, 'yyyy-MM-dd HH:mm:ss')} ${text}`),
  around(
    'syslog-like',
    (text, atMs) => `<30>1 ${utc(atMs, "yyyy-MM-dd'T'HH:mm:ss.SSS'Z'")} cierzo runner 4711 - - ${text}`,
  ),
  {
    id: 'block-first-line',
    write: (lines) => ({
      name: 'log.log',
      lines: lines.flatMap(({ atMs, text }) => [`*** ${local(atMs, 'yyyy-MM-dd HH:mm:ss')}`, `  ${text}`, '']),
    }),
  },
];

/** Ways to tell time, each of which a draft must read right wherever words leave no doubt about the events. */
export const STAMP_STYLES: readonly StampStyle[] = [...DATED, ...SECONDS_OF_DAY, ...OF_DAY, ...COUNTS, ...ELSEWHERE];
