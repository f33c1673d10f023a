import { FixedOffsetZone, IANAZone } from 'luxon';

const MINUTE = 60_000;
const DAY = 1440 * MINUTE;
/** A longer span is no night, and has no quarter hours to mark. */
const MAX_TICKED_MS = 10 * DAY;
/** Clocks are set back by less than this, ms. */
const NEAR_A_CHANGE = 180 * MINUTE;
const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

const two = (value: number): string => String(value).padStart(2, '0');

/** Formats UTC milliseconds as the times a reader sees. */
export interface Clock {
  /** IANA name of the zone, or `UTC±h`. */
  readonly zone: string;
  /** `21:04` */
  time(atMs: number): string;
  /** `21:04`; in the repeated hour when clocks are set back, which of the two: `02:04 (UTC+1)`. */
  moment(atMs: number): string;
  /** `21:04:12`; in the repeated hour, which of the two: `02:04:12 (UTC+1)`. */
  seconds(atMs: number): string;
  /** Offset from UTC at that instant: `UTC+2`, `UTC−3:30`, `UTC`. */
  offset(atMs: number): string;
  /** Minutes ahead of UTC at that instant. */
  offsetMinutes(atMs: number): number;
  /** `20 October 2026` */
  date(atMs: number): string;
  /** The instants in the span at which the local time of day is a multiple of this many minutes. */
  ticks(startMs: number, endMs: number, minutes: number): readonly number[];
}

/** Minutes ahead of UTC as a reader sees them: `UTC+2`, `UTC−3:30`, `UTC`. */
export function offsetText(minutes: number): string {
  if (minutes === 0) return 'UTC';
  const size = Math.abs(minutes);
  return `UTC${minutes < 0 ? '−' : '+'}${Math.floor(size / 60)}${size % 60 === 0 ? '' : `:${two(size % 60)}`}`;
}

/** A clock of the zone; of UTC when the zone is not known to the machine. */
export function clockOf(zoneName: string): Clock {
  const asked = IANAZone.create(zoneName);
  const zone = asked.isValid ? asked : FixedOffsetZone.parseSpecifier(zoneName);
  // Offsets change on whole quarter hours at most; querying one costs more than all the rest of the formatting.
  const known = new Map<number, number>();
  const offsetMinutes = (atMs: number): number => {
    if (zone === null) return 0;
    const quarter = Math.floor(atMs / (15 * MINUTE));
    const offset = known.get(quarter) ?? zone.offset(atMs);
    known.set(quarter, offset);
    return offset;
  };
  const local = (atMs: number): number => atMs + offsetMinutes(atMs) * MINUTE;
  const ofDay = (atMs: number): number => ((local(atMs) % DAY) + DAY) % DAY;
  const time = (atMs: number): string => {
    const minutes = Math.floor(ofDay(atMs) / MINUTE);
    return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
  };
  const pass = (atMs: number): string => {
    const own = offsetMinutes(atMs);
    // As far as clocks have been set back, minutes: the same time of day occurred earlier or recurs later by this.
    const [sooner, later] = [offsetMinutes(atMs - NEAR_A_CHANGE) - own, own - offsetMinutes(atMs + NEAR_A_CHANGE)];
    const isSecond = sooner > 0 && offsetMinutes(atMs - sooner * MINUTE) !== own;
    const isFirst = later > 0 && offsetMinutes(atMs + later * MINUTE) !== own;
    return isFirst || isSecond ? ` (${offsetText(own)})` : '';
  };
  return {
    zone: zone === null ? 'UTC' : zoneName,
    time,
    moment: (atMs) => `${time(atMs)}${pass(atMs)}`,
    seconds: (atMs) => `${time(atMs)}:${two(Math.floor((ofDay(atMs) % MINUTE) / 1000))}${pass(atMs)}`,
    offset: (atMs) => offsetText(offsetMinutes(atMs)),
    offsetMinutes,
    date: (atMs) => {
      const day = new Date(local(atMs));
      return `${day.getUTCDate()} ${monthName(day.getUTCMonth())} ${day.getUTCFullYear()}`;
    },
    ticks: (startMs, endMs, step) => {
      const ticks: number[] = [];
      if (endMs - startMs > MAX_TICKED_MS) return ticks;
      // Quarter hours hold every zone's whole hours, and both sides of a change of the clocks.
      for (let atMs = Math.ceil(startMs / (15 * MINUTE)) * 15 * MINUTE; atMs <= endMs; atMs += 15 * MINUTE) {
        if (Math.floor(ofDay(atMs) / MINUTE) % step === 0) ticks.push(atMs);
      }
      return ticks;
    },
  };
}

/** @param index 0 for January. @throws RangeError when there is no such month */
export function monthName(index: number): string {
  const name = MONTHS[index];
  if (name === undefined) throw new RangeError(`there is no month ${index}`);
  return name;
}

/** The night's title: `19 to 20 October 2026`, `31 October to 1 November 2026`. */
export function nightTitle(date: string): string {
  const evening = new Date(`${date}T12:00:00Z`);
  const morning = new Date(evening.getTime() + DAY);
  const [d1, m1, y1] = [evening.getUTCDate(), evening.getUTCMonth(), evening.getUTCFullYear()];
  const [d2, m2, y2] = [morning.getUTCDate(), morning.getUTCMonth(), morning.getUTCFullYear()];
  const end = `${d2} ${monthName(m2)} ${y2}`;
  if (y1 !== y2) return `${d1} ${monthName(m1)} ${y1} to ${end}`;
  return m1 === m2 ? `${d1} to ${end}` : `${d1} ${monthName(m1)} to ${end}`;
}
