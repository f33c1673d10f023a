import { DateTime } from 'luxon';
import { pick } from './night.js';
import type { Random } from '../../../support/generator/random.js';

/** How a log tells time: the stamp of a line, lines that must stand before it, and what its head and its name say. */
export interface LogStyle {
  readonly id: string;
  readonly head: readonly string[];
  /** What the file's name ends in. */
  readonly nameSuffix: string;
  stamp(atMs: number): string;
  /** Lines to print before the line at this time, such as the heading of a new day. */
  before(atMs: number): readonly string[];
  /** The smallest step that stamps tell, ms. */
  readonly stepMs: number;
}

interface Heads {
  readonly base: readonly string[];
  readonly evening: readonly string[];
}

type Make = (startMs: number, heads: Heads, random: Random, comma: boolean) => LogStyle;

const ZONE = 'Europe/Madrid';
const local = (atMs: number, form: string): string => DateTime.fromMillis(atMs, { zone: ZONE }).toFormat(form);
const utc = (atMs: number, form: string): string => DateTime.fromMillis(atMs, { zone: 'utc' }).toFormat(form);

const plain = (id: string, stamp: (atMs: number) => string, stepMs = 1000): LogStyle => ({
  id,
  head: [],
  nameSuffix: '',
  stamp,
  before: () => [],
  stepMs,
});

const dated =
  (id: string, form: string, stepMs = 1000): Make =>
  () =>
    plain(id, (atMs) => local(atMs, form), stepMs);

/** The evening's date stands once, in the head or in the file's name; the lines tell the time of day. */
const ofDay =
  (id: string, form: string, where: 'head' | 'name'): Make =>
  (startMs, { evening }, random) => ({
    ...plain(id, (atMs) => local(atMs, form)),
    head:
      where === 'head'
        ? [
            pick(evening, random).replace(
              '{day}',
              local(startMs, pick(['yyyy-MM-dd', 'dd.MM.yyyy', 'd LLLL yyyy'], random)),
            ),
          ]
        : [],
    nameSuffix: where === 'name' ? local(startMs, pick(['_yyyyMMdd', '-yyyy-MM-dd'], random)) : '',
  });

/** Times count from a line that states when. Some logs begin anew now and then. */
const counted =
  (id: string, write: (seconds: number, comma: boolean) => string, anew: boolean): Make =>
  (startMs, { base }, random, comma) => {
    const zeroMs = Math.floor(startMs / 1000) * 1000 - random.whole(0, 40) * 1000;
    const wording = pick(base, random);
    const form = pick(
      ['yyyy-MM-dd HH:mm:ss', 'dd.MM.yyyy HH:mm:ss', "yyyy-MM-dd'T'HH:mm:ss", 'yyyy/MM/dd, HH:mm:ss'],
      random,
    );
    const line = (atMs: number): string => wording.replace('{date}', local(atMs, form));
    let fromMs = zeroMs;
    return {
      ...plain(id, (atMs) => write((atMs - fromMs) / 1000, comma), 100),
      head: [line(zeroMs)],
      before: (atMs) => {
        if (!anew || atMs - fromMs < 9_000_000) return [];
        fromMs = Math.floor(atMs / 1000) * 1000;
        return [line(fromMs)];
      },
    };
  };

function clock(seconds: number): string {
  const whole = Math.floor(seconds);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

const tenths = (seconds: number, comma: boolean): string => seconds.toFixed(1).replace('.', comma ? ',' : '.');

const STYLES: readonly Make[] = [
  dated('iso', "yyyy-MM-dd'T'HH:mm:ss.SSS", 1),
  () => plain('iso-utc', (atMs) => utc(atMs, "yyyy-MM-dd'T'HH:mm:ss'Z'")),
  dated('day-first', 'dd.MM.yyyy HH:mm:ss'),
  dated('day-first-comma', 'dd.MM.yyyy HH:mm:ss,S', 100),
  dated('slashes', 'yyyy/MM/dd HH:mm:ss'),
  dated('two-digits', 'yyMMdd-HHmmss'),
  dated('month-name', 'd LLL yyyy HH:mm:ss'),
  dated('digits', 'yyyyMMddHHmmss'),
  () => plain('epoch', (atMs) => (atMs / 1000).toFixed(1), 100),
  () => plain('epoch-ms', (atMs) => String(atMs), 1),
  () => plain('julian', (atMs) => (atMs / 86_400_000 + 2_440_587.5).toFixed(6), 100),
  ofDay('of-day', 'HH:mm:ss', 'head'),
  ofDay('of-day-name', 'HH:mm:ss', 'name'),
  ofDay('compact', 'HHmmss.S', 'head'),
  ofDay('hours', "HH'h'mm'm'ss", 'name'),
  ofDay('dotted', 'HH.mm.ss', 'head'),
  counted('seconds', tenths, false),
  counted('seconds-anew', tenths, true),
  counted('clock', (seconds) => clock(seconds), false),
  counted('clock-padded', (seconds) => clock(seconds).padStart(8, '0'), false),
  counted('clock-plus', (seconds) => `+${clock(seconds)}`, true),
  counted('milliseconds', (seconds) => String(Math.round(seconds * 1000)), false),
  (_startMs) => {
    let day = '';
    return {
      ...plain('headings', (atMs) => local(atMs, 'HH:mm:ss')),
      before: (atMs) => {
        const own = local(atMs, 'yyyy-MM-dd');
        if (own === day) return [];
        day = own;
        return [`--- ${own} ---`];
      },
    };
  },
];

/** A way to tell time, by chance. */
export function randomStyle(startMs: number, heads: Heads, random: Random, comma: boolean): LogStyle {
  return pick(STYLES, random)(startMs, heads, random, comma);
}
