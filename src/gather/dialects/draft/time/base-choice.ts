import type { BaseLine } from './base-lines.js';
import { NEAR_NIGHT_MS } from '../../time/near-night.js';
import { instant } from './night-evidence.js';
import { isOtherDate } from './other-date.js';

/** A line's counter value, ms from its unknown base. */
export interface CountedLine {
  readonly line: number;
  readonly ms: number;
}

const MAX_FORMS = 12;
/** Counting begins within this time of the line that states its base. */
const SOON_MS = 45 * 60_000;
/** A counter goes back by more than this only where it restarts. */
const RESTART_MS = 60_000;

/** Tonight's log may mention earlier days, which begin no counter. */
const OLD = 60;

/** Words of a line that begins a counter. */
const BEGINS =
  /\b(?:epoch|since|start\w*|begin\w*|began|zero|origin\w*|base\w*|counts? from|t0|ref\w*|opened|nulpunt|gestartet|beginn\w*|anfang|null\w*|seit|depuis|z[ée]ro|d[ée]but\w*|inicio|comienz\w*|desde|cero|inizio|iniziat\w*|in[íi]cio|começ\w*|od|začal\w*|začát\w*|obnov\w*|początek|zacz[ęe]\w*|vanaf|sinds|resumed|restart\w*|set)(?![\p{L}])|基準|基准|起点|起點|開始|开始|から|零/iu;

/**
 * The lines that state the base of times: the form with the most evidence, from its words, its position and counters
 * that start near zero after it, and every other form found where the counter restarts. One line per form; empty when
 * there is none.
 */
export function chosenBases(bases: readonly BaseLine[], times: readonly CountedLine[] = []): readonly BaseLine[] {
  const forms = new Map<string, BaseLine[]>();
  for (const base of bases) {
    const key = keyOf(base);
    const own = forms.get(key);
    if (own === undefined) forms.set(key, [base]);
    else own.push(base);
  }
  const instants = new Map([...forms.values()].map((own) => [own, instantOf(own)]));
  const latest = Math.max(...[...instants.values()].filter((ms) => !Number.isNaN(ms)));
  const isOld = (own: BaseLine[]): boolean => latest - (instants.get(own) ?? NaN) > NEAR_NIGHT_MS;
  const ranked = [...forms.values()]
    .map((own) => ({ own, rank: rankOf(own, times) - (isOld(own) ? OLD : 0) }))
    .sort((a, b) => b.rank - a.rank)
    .map(({ own }) => own);
  const [best, ...others] = ranked;
  const [first] = best ?? [];
  if (first === undefined) return [];
  const begin = times[0]?.line ?? Infinity;
  // Counts before that line have another base.
  const head = first.line.number < begin ? [] : others.filter(([base]) => base && base.line.number < begin);
  const more = [
    ...head.slice(0, 1).flatMap(([base]) => base ?? []),
    ...others.flatMap((own) => own.filter((base) => base.hasDay === first.hasDay && restarts(base, times)).slice(0, 1)),
  ];
  const all = [first, ...more];
  const keys = all.map(keyOf);
  return all.filter((_, i) => keys.indexOf(keys[i] ?? '') === i).slice(0, MAX_FORMS);
}

function keyOf({ section }: BaseLine): string {
  return 'file' in section ? '\0' : section.begin;
}

function rankOf(own: readonly BaseLine[], times: readonly CountedLine[]): number {
  const [base] = own;
  if (base === undefined) return 0;
  const next = nextTo(base, times);
  const { text } = base.line;
  return (
    (base.hasDay ? 100 : 0) -
    ('file' in base.section ? 5 : 0) +
    Math.min(20, own.length) +
    (BEGINS.test(text) ? 30 : 0) +
    (hasCount(base) ? 40 : 0) -
    (isOtherDate(text) ? 60 : 0) +
    (next !== undefined && next.ms >= 0 && next.ms < SOON_MS ? 20 : 0) +
    (own.some((one) => restarts(one, times)) ? 20 : 0)
  );
}

/** The first instant that lines of a form state, UTC ms; NaN if they state only a time of day. */
function instantOf([base]: readonly BaseLine[]): number {
  return base === undefined || !base.hasDay || 'file' in base.section || base.section.base === undefined
    ? NaN
    : instant(base.section.base, base.line.text.slice(base.stamp.start));
}

/** Whether the line states the counter value. */
function hasCount({ section }: BaseLine): boolean {
  return !('file' in section) && (section.sync === true || section.begin.includes('(?<elapsed>'));
}

/** Whether the counter returns to near zero at this line. */
function restarts(base: BaseLine, times: readonly CountedLine[]): boolean {
  const next = nextTo(base, times);
  const before = times.findLast(({ line }) => line < base.line.number);
  return next !== undefined && before !== undefined && next.ms < SOON_MS && next.ms < before.ms - RESTART_MS;
}

function nextTo(base: BaseLine, times: readonly CountedLine[]): CountedLine | undefined {
  return times.find(({ line }) => line > base.line.number);
}
