import { newStamp, StampPattern } from '../../time/stamp.js';
import { escaped } from '../escaped.js';
import type { LineSection } from '../report.js';
import type { CountedLine } from './base-choice.js';
import type { BaseLine } from './base-lines.js';

/** The next line comes within this time of the instant that a line states with its counter. */
const SOON_MS = 45 * 60_000;
/** Text between an instant and the corresponding counter value. */
const BETWEEN = 40;
/** A counter of this many digits, or one that is named so, is not another number. */
const MIN_DIGITS = 4;
const NUMBER = /(?<![\d_.,:/-]|\p{L}\p{L}|[\d_]\p{L})\d+(?:[.,]\d+)?(?![\p{L}\d_]|[.,:/-]\d)/gu;
const NAMED =
  /(?:tick\w*|count\w*|uptime|elapsed|millis\w*|monoton\w*|clock|timer|zähler\w*|zaehler\w*|uhr|compteur|contador|contatore|teller|licznik|čítač|(?<!\p{L})(?:[a-z]?t|at)|=|@|↔|<->|計数|计数)\s*[=:#]?\s*$/iu;
/** Words of a line that states when the counter was zero, whatever its own value. */
export const ZERO =
  /\b(?:epoch|since|start\w*|began|zero|origin\w*|counts? from|t0|opened|boot\w*|nulpunt|gestartet|null\w*|seit|depuis|z[ée]ro|desde|cero|od|vanaf|sinds)(?![\p{L}])|零|から/iu;

/**
 * The base line with the corresponding counter value, if it states one: `clock is 2026-10-06T18:58:11Z at tick 184320`,
 * or if its own stamp is one: `184.320 clock set, 2026-10-06T18:58:11Z`. Unchanged if times count from the instant
 * itself.
 *
 * @param counts the lines with counters, in the unit of the pattern
 */
export function withCount(base: BaseLine, pattern: string, counts: readonly CountedLine[]): BaseLine {
  const { section, line } = base;
  if ('file' in section) return base;
  const next = counts.find((one) => one.line > line.number) ?? atTheFoot(counts);
  if (next === undefined) return base;
  const own = counts.find((one) => one.line === line.number);
  if (own !== undefined) {
    const goesOn = own.ms > 0 && next.ms >= own.ms && next.ms - own.ms < SOON_MS;
    return goesOn && !ZERO.test(line.text) ? { ...base, section: { ...section, sync: true } } : base;
  }
  const stated = statedCount(base, pattern, next.ms);
  return stated === null ? base : { ...base, section: { ...section, begin: stated } };
}

/** Below all counts, a line states one that comes soon after the last. */
function atTheFoot(counts: readonly CountedLine[]): CountedLine | undefined {
  const last = counts.at(-1);
  return last === undefined ? undefined : { line: last.line, ms: last.ms + SOON_MS - 1 };
}

/** The pattern of the line with the counter value in a group. */
function statedCount({ line, stamp, section }: BaseLine, source: string, nextMs: number): LineSection['begin'] | null {
  const [, token] = /(\{elapsed[^}]*\})/.exec(source) ?? [];
  const time = 'file' in section ? undefined : /\(\?<time>.*\)$/.exec(section.begin)?.[0];
  if (token === undefined || time === undefined) return null;
  const pattern = new StampPattern(token);
  const { text } = line;
  const found = [...text.matchAll(NUMBER)].flatMap(([digits], k, all) => {
    const start = all[k]?.index ?? 0;
    const end = start + digits.length;
    const isBeside =
      end <= stamp.start ? stamp.start - end <= BETWEEN : start >= stamp.end && start - stamp.end <= BETWEEN;
    const bytes = Buffer.from(digits);
    const read = newStamp();
    if (!isBeside || !pattern.readAt(bytes, 0, bytes.length, read)) return [];
    const isCount = digits.length >= MIN_DIGITS || NAMED.test(text.slice(0, start));
    const away = nextMs - read.ms;
    return isCount && read.ms > 0 && away >= 0 && away < SOON_MS ? [{ start, end, away }] : [];
  });
  const [best] = found.sort((a, b) => a.away - b.away);
  if (best === undefined) return null;
  const count = String.raw`(?<elapsed>\d+(?:[.,]\d+)?)`;
  return best.end <= stamp.start
    ? `${wordsBefore(text, best.start)}${count}${form(text.slice(best.end, stamp.start))}${time}`
    : `${wordsBefore(text, stamp.start)}${time}${form(text.slice(stamp.end, best.start))}${count}`;
}

/** The words before a position, which identify the line. */
function wordsBefore(text: string, end: number): string {
  return form(/(?:\S+\s+){0,2}\S*$/u.exec(text.slice(0, end))?.[0] ?? '');
}

function form(text: string): string {
  return escaped(text).replace(/\d+/g, '\\d+').replace(/\s+/g, '\\s+');
}
