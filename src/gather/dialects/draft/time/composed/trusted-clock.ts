import { escaped } from '../../escaped.js';
import { IN_BRACKETS } from '../../lexicon/plain-words.js';
import { sideOfTitle } from '../../lexicon/sides.js';
import type { TimeCells } from '../guess.js';
import { timesOf } from '../times-of.js';

type Row = ReadonlyMap<string, string>;

/** What a remark says of a clock that is wrong, behind its name; and of one that is right, before it. */
const WRONG =
  /(?<!\p{L})(?:not set|never set|unset|wrong|flat|unreliable|ignore|invalid|drift\p{L}*|off|falsch|nicht gestellt|ungestellt|faux|fausse|pas réglé\p{L}*|mal|no puest\p{L}*|sbagliat\p{L}*|non impostat\p{L}*|errad\p{L}*|fout|verkeerd|nie ustawion\p{L}*|zł\p{L}*|zle|špatn\p{L}*|nenastaven\p{L}*|fel|forkert|väär\p{L}*)(?!\p{L})/iu;
/** What it says behind the name of a clock that is wrong, or that is right. */
const GAINS =
  /(?<!\p{L})(?:fast|slow|ahead|behind|gains|loses|vor|nach|voraus|avance|retard|adelant\p{L}*|atras\p{L}*|avanti|indietro|adiantad\p{L}*|voor|achter|spieszy|śpieszy|późni|foran|bagud|stærkt|före|efter|forran|etter)(?!\p{L})/iu;
const HOLDS =
  /^[\p{L}\s)]{0,12}(?<!\p{L})(?:holds|counts|rules|applies|is (?:right|true|valid|the one)|gilt|zählt|stimmt|fait foi|vale|valgono|manda|conta|geldt|telt|klopt|obowiązuje|platí|gælder|gäller|gjelder|pätee|érvényes)(?!\p{L})/iu;
const RIGHT =
  /(?<!\p{L})(?:go by|use|trust|rely on|see|take|gilt|nimm|utiliser|suivre|usar|usa|usare|gebruik|użyj|použij\p{L}*)\s[\p{L}\s]{0,12}$/iu;
/** Names of clocks that are set from outside. */
const SET = /(?<!\p{L})(?:gps|gnss|ntp|utc|radio|true|ref(?:erence)?)(?!\p{L})/iu;
const NEAR = 40;
/** Clocks without dates: they differ by less than this from some zone, and slowly go apart. */
const MOST_OFF_MS = 180_000;
const DRIFT_MS = 2000;
const DAY_MS = 86_400_000;
const QUARTER_MS = 900_000;
const MOST_AHEAD_MS = 14 * 3_600_000;
const STEADY_MS = 5000;
const HAS_DATE = /\{(?:year|epoch)/;
const UNIVERSAL = /(?<![\p{L}\d])(?:UTC?|GMT|TU)(?![\p{L}\d])/u;

/**
 * Of columns with clocks that differ by more than a zone does, the one that a remark trusts, or that is set from
 * outside; `null` if they agree, or if nothing tells.
 *
 * @param ranked columns with a time of day, with or without a date, best first
 * @param heads lines that may be remarks
 */
export function trustedClock(
  rows: readonly Row[],
  ranked: readonly TimeCells[],
  heads: readonly string[],
): TimeCells | null {
  const dated = ranked.filter(({ paths, stamp }) => paths.length === 1 && HAS_DATE.test(stamp.pattern));
  const isDated = dated.length > 1;
  const clocks = isDated ? dated : ranked.filter(isClock);
  const [first, ...others] = clocks;
  if (first === undefined || !others.some((other) => disagree(rows, first, other))) return null;
  const said = clocks.map((one) => ({ one, trust: trustIn(one.paths[0] ?? '', heads, isDated) }));
  const [best, next] = [...said].sort((a, b) => b.trust - a.trust);
  if (best === undefined || best.trust <= (next?.trust ?? 0)) return null;
  const wrong = clocks.filter((other) => other !== best.one && disagree(rows, best.one, other));
  const isUniversal = !isDated && UNIVERSAL.test((best.one.paths[0] ?? '').replaceAll('_', ' '));
  const stamp = { ...best.one.stamp, ...(isUniversal ? { zone: 'utc' } : {}), isTrusted: true } as const;
  return { ...best.one, stamp, without: wrong.flatMap(({ paths }) => paths) };
}

/** Whether a column is a time of day that is neither end of a span. */
function isClock({ paths, stamp }: TimeCells): boolean {
  return paths.length === 1 && /^[^{]*\{hour\}.*\{second\}/.test(stamp.pattern) && sideOfTitle(paths) === null;
}

function disagree(rows: readonly Row[], a: TimeCells, b: TimeCells): boolean {
  const [own, other] = [a, b].map(({ paths, stamp }) =>
    timesOf(
      stamp,
      rows.map((row) => ({ text: row.get(paths[0] ?? '') ?? '' })),
    ),
  );
  if (own === undefined || other === undefined || own.length !== other.length) return false;
  if (!HAS_DATE.test(a.stamp.pattern)) return areOff(own, other);
  const away = own.map((ms, i) => (other[i] ?? NaN) - ms);
  const [some = NaN] = away;
  // Two ends of a span are apart by its length.
  if (!away.every((ms) => Math.abs(ms - some) < STEADY_MS)) return false;
  const isZone = Math.abs(some - Math.round(some / QUARTER_MS) * QUARTER_MS) < STEADY_MS;
  return Math.abs(some) > MOST_AHEAD_MS || (!isZone && Math.abs(some) > STEADY_MS);
}

/** Whether two times of day are all but some zone apart, and one gains on the other slowly. */
function areOff(own: readonly number[], other: readonly number[]): boolean {
  const off = own.map((ms, i) => {
    const away = (((other[i] ?? NaN) - ms) % DAY_MS) + DAY_MS;
    return away - Math.round(away / QUARTER_MS) * QUARTER_MS;
  });
  const steps = off.slice(1).map((ms, i) => Math.abs(ms - (off[i] ?? NaN)));
  const [some = NaN] = off;
  return (
    off.every((ms) => Math.abs(ms) < MOST_OFF_MS) &&
    steps.every((step) => step <= DRIFT_MS) &&
    Math.abs(some) > STEADY_MS
  );
}

/** @param isDated whether the name of universal time is one of a clock that is set from outside */
function trustIn(path: string, heads: readonly string[], isDated: boolean): number {
  const plain = path.replace(IN_BRACKETS, ' ').trim();
  const name = new RegExp(`(?<![\\p{L}\\d])${escaped(plain === '' ? path : plain)}(?![\\p{L}\\d])`, 'giu');
  const words = path.replaceAll('_', ' ');
  let trust = SET.test(isDated ? words : words.replace(UNIVERSAL, ' ')) ? 1 : 0;
  for (const text of heads) {
    for (const at of text.matchAll(name)) {
      const [behind = ''] = text.slice(at.index + at[0].length).split(isDated ? /[,;.]/ : /;|[.,:]\s+(?=\p{L})/u);
      if (WRONG.test(behind.slice(0, NEAR))) trust -= 2;
      else if (!isDated && GAINS.test(behind)) trust -= 2;
      if (RIGHT.test(text.slice(0, at.index)) || HOLDS.test(behind)) trust += 2;
    }
  }
  return trust;
}
