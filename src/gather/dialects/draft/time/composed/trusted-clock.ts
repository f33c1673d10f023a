import { escaped } from '../../escaped.js';
import type { TimeCells } from '../guess.js';
import { timesOf } from '../times-of.js';

type Row = ReadonlyMap<string, string>;

/** What a remark says of a clock that is wrong, behind its name; and of one that is right, before it. */
const WRONG =
  /(?<!\p{L})(?:not set|never set|unset|wrong|flat|unreliable|ignore|invalid|drift\p{L}*|off|falsch|nicht gestellt|ungestellt|faux|fausse|pas réglé\p{L}*|mal|no puest\p{L}*|sbagliat\p{L}*|non impostat\p{L}*|errad\p{L}*|fout|verkeerd|nie ustawion\p{L}*|zł\p{L}*|zle|špatn\p{L}*|nenastaven\p{L}*|fel|forkert|väär\p{L}*)(?!\p{L})/iu;
const RIGHT =
  /(?<!\p{L})(?:go by|use|trust|rely on|see|take|gilt|nimm|utiliser|suivre|usar|usa|usare|gebruik|użyj|použij\p{L}*)\s[\p{L}\s]{0,12}$/iu;
/** Names of clocks that are set from outside. */
const SET = /(?<!\p{L})(?:gps|gnss|ntp|utc|radio|true|ref(?:erence)?)(?!\p{L})/iu;
const NEAR = 40;
const QUARTER_MS = 900_000;
const MOST_AHEAD_MS = 14 * 3_600_000;
const STEADY_MS = 5000;

/**
 * Of columns with clocks that differ by more than a zone does, the one that a remark trusts, or that is set from
 * outside; `null` if they agree, or if nothing tells.
 *
 * @param ranked columns with a date and a time of day, best first
 * @param heads lines that may be remarks
 */
export function trustedClock(
  rows: readonly Row[],
  ranked: readonly TimeCells[],
  heads: readonly string[],
): TimeCells | null {
  const dated = ranked.filter(({ paths, stamp }) => paths.length === 1 && /\{(?:year|epoch)/.test(stamp.pattern));
  const [first, ...others] = dated;
  if (first === undefined || !others.some((other) => disagree(rows, first, other))) return null;
  const said = dated.map((one) => ({ one, trust: trustIn(one.paths[0] ?? '', heads) }));
  const [best, next] = [...said].sort((a, b) => b.trust - a.trust);
  if (best === undefined || best.trust <= (next?.trust ?? 0)) return null;
  const wrong = dated.filter((other) => other !== best.one && disagree(rows, best.one, other));
  return { ...best.one, without: wrong.flatMap(({ paths }) => paths) };
}

function disagree(rows: readonly Row[], a: TimeCells, b: TimeCells): boolean {
  const [own, other] = [a, b].map(({ paths, stamp }) =>
    timesOf(
      stamp,
      rows.map((row) => ({ text: row.get(paths[0] ?? '') ?? '' })),
    ),
  );
  if (own === undefined || other === undefined || own.length !== other.length) return false;
  const away = own.map((ms, i) => (other[i] ?? NaN) - ms);
  const [some = NaN] = away;
  // Two ends of a span are apart by its length.
  if (!away.every((ms) => Math.abs(ms - some) < STEADY_MS)) return false;
  const isZone = Math.abs(some - Math.round(some / QUARTER_MS) * QUARTER_MS) < STEADY_MS;
  return Math.abs(some) > MOST_AHEAD_MS || (!isZone && Math.abs(some) > STEADY_MS);
}

function trustIn(path: string, heads: readonly string[]): number {
  const name = new RegExp(`(?<![\\p{L}\\d])${escaped(path)}(?![\\p{L}\\d])`, 'iu');
  let trust = SET.test(path.replaceAll('_', ' ')) ? 1 : 0;
  for (const text of heads) {
    const at = name.exec(text);
    if (at === null) continue;
    const [behind = ''] = text.slice(at.index + at[0].length).split(/[,;.]/);
    if (WRONG.test(behind.slice(0, NEAR))) trust -= 2;
    if (RIGHT.test(text.slice(0, at.index))) trust += 2;
  }
  return trust;
}
