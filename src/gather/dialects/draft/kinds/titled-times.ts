import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import type { Candidate } from '../classify/classify.js';
import { plainWords } from '../lexicon/plain-words.js';
import { isSubject } from '../lexicon/said.js';
import { sideOfTitle } from '../lexicon/sides.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import type { Kind, Slot } from './kind.js';
import { timeOf } from './parts.js';
import { titlePairs } from './title-pairs.js';

/** What the title of a column of times states: the event, and the train where the columns of several stand apart. */
export interface TitledTime {
  readonly event: EventName;
  readonly train: string | null;
}

/** The columns of times of a kind whose titles say what happened then; of these the one with the rows' own times. */
export interface TitledTimes {
  readonly own: TitledTime | null;
  readonly others: ReadonlyMap<Slot, TitledTime>;
}

/** A column of times; its slot is `null` for that of the rows' own times. Empty cells are NaN. */
interface TimeColumn {
  readonly title: string;
  readonly slot: Slot | null;
  readonly atMs: readonly number[];
}

/** A subject that is named and what becomes of it, this far ahead of anything else. */
const CLEAR = 3.3;
const LEAD = 0.5;
/** A subject that is named alone. */
const NAMED = 2;
/** What stands behind the words of a title. */
const UNITS = /(?: (?:ms|s|sec|utc|at|time|local|lt|ut|epoch|unix))+$/;
/** What only waits says less by itself: beside the columns of a dither it is one of the trains. */
const WAITS = 0.5;
/** So long before its move a train may wait for a dither, ms (common practice, no source); the share that does. */
const WAITING_MS = 1_800_000;
const NEARLY_ALL = 0.9;
const MIN_COLUMNS = 3;
/** A title leaves no doubt. */
const TITLED = 6;

/**
 * The kinds of row whose columns of times are titled by events, `dither start`, `settled`, `heron waiting since`: each
 * filled cell is one. Rows with a column for the beginning and one for the end of what the row is about are none.
 */
export function titledTimes(kinds: readonly Kind[]): ReadonlyMap<Kind, TitledTimes> {
  return new Map(
    kinds.flatMap((kind): [Kind, TitledTimes][] => {
      const titled = titledOf(kind);
      return titled === null ? [] : [[kind, titled]];
    }),
  );
}

/** What a column of times is a candidate of. */
export function asTitled({ event }: TitledTime): Pick<Candidate, 'only' | 'extra'> {
  return { only: [event], extra: new Map([[event, TITLED]]) };
}

function titledOf(kind: Kind): TitledTimes | null {
  if (kind.timeColumn === undefined) return null;
  const columns: readonly TimeColumn[] = [
    ...(kind.exposure === undefined ? [{ title: kind.timeColumn, slot: null, atMs: kind.atMs }] : []),
    ...kind.slots.flatMap((slot): TimeColumn[] =>
      slot.path !== null && (slot.type === 'clock' || slot.timesMs !== undefined)
        ? [{ title: slot.path, slot, atMs: kind.atMs.map((atMs, i) => timeOf(slot, i, atMs)) }]
        : [],
    ),
  ];
  const trains = trainsOf(columns.map(({ title }) => title));
  const found = new Map<TimeColumn, TitledTime>();
  for (const column of columns) {
    const train = trains.get(column.title) ?? null;
    const event = eventOf(withoutWord(column.title, train), kind.wording);
    if (event !== null) found.set(column, { event, train });
  }
  const known = new Set([...found.values()].map(({ event }) => event));
  for (const [column, event] of titlePairs(kind, columns))
    if (!found.has(column) && !known.has(event)) found.set(column, { event, train: null });
  for (const column of columns) {
    const train = trains.get(column.title) ?? null;
    if (!found.has(column) && waits(column, train, found)) found.set(column, { event: 'dither-ready', train });
  }
  settledThen(found);
  const titles = [...found.values()];
  const isClear = new Set(titles.map(({ event, train }) => `${event} ${train}`)).size === titles.length;
  if (kind.exposure === undefined && (titles.length < Math.min(MIN_COLUMNS, columns.length) || !isClear)) return null;
  if (titles.length < 2 && kind.exposure === undefined) return null;
  // What begins and what ends there are the two ends of what each row is about.
  const about = new Set(titles.map(({ event }) => beginOf(event) ?? event));
  if (kind.exposure === undefined && about.size < 2 && titles.every(({ train }) => train === null)) return null;
  return {
    own: [...found].find(([{ slot }]) => slot === null)?.[1] ?? null,
    others: new Map([...found].flatMap(([{ slot }, time]) => (slot === null ? [] : [[slot, time] as const]))),
  };
}

/** Settling begins with the end of a dither: what begins there so much later, ms, is calm, as in `calm since`. */
const LATER_MS = 1500;

function settledThen(found: Map<TimeColumn, TitledTime>): void {
  const of = (name: EventName): TimeColumn[] =>
    [...found].flatMap(([column, { event }]) => (event === name ? column : []));
  const [moved] = of('dither-end');
  const [calm, ...others] = of('settling-begin');
  if (moved === undefined || calm === undefined || others.length > 0 || of('settling-end').length > 0) return;
  const known = calm.atMs.flatMap((atMs, i) => (Number.isNaN(atMs) ? [] : atMs - (moved.atMs[i] ?? NaN)));
  const later = known.filter((ms) => ms >= LATER_MS).length;
  if (later >= NEARLY_ALL * known.length && later > 0)
    found.set(calm, { event: 'settling-end', train: found.get(calm)?.train ?? null });
}

/** The event that a title names, by itself or beside what its rows are about; `null` where it leaves any doubt. */
function eventOf(title: string, wording: string): EventName | null {
  const clear = (text: string): EventName | null => {
    const [best, next] = [...wordEvidence(text)].sort((a, b) => b[1] - a[1]);
    return best !== undefined && best[1] >= CLEAR && best[1] - (next?.[1] ?? 0) >= LEAD ? best[0] : null;
  };
  const own = clear(title) ?? sideNamed(title);
  if (own !== null || wording === '' || plainWords(title).split(' ').some(isSubject)) return own;
  const beside = clear(`${wording} ${title}`);
  // `until` alone names the end of what the row is about, and no wait.
  const isSide = wordsOf(title).length === 1 && sideOfTitle([title]) !== null;
  return isSide && beside === 'dither-ready' ? null : beside;
}

/** `settling from`, `focus until`: the side that a title names with a word that also means other things elsewhere. */
function sideNamed(title: string): EventName | null {
  const words = plainWords(title).replace(UNITS, '').split(' ');
  const edges = [words[0], words.at(-1)].flatMap((word) => (word === undefined ? [] : (sideOfTitle([word]) ?? [])));
  const [side, other] = new Set(edges);
  const [best, next] = [...wordEvidence(title)].sort((a, b) => b[1] - a[1]);
  if (side === undefined || other !== undefined || best === undefined || best[1] < NAMED) return null;
  const begin = beginOf(best[0]) ?? best[0];
  const end = endOf(begin);
  if (end === undefined || (next !== undefined && next[0] !== begin && next[0] !== end)) return null;
  return side === 'begin' ? begin : end;
}

/** Whether a column beside those of a dither says since when a train has waited for it. */
function waits(
  { title, atMs, slot }: TimeColumn,
  train: string | null,
  found: ReadonlyMap<TimeColumn, TitledTime>,
): boolean {
  const moved = [...found].find(([, { event }]) => event === 'dither-begin')?.[0];
  if (moved === undefined) return false;
  const isAhead = atMs.filter((ms, i) => {
    const leftMs = (moved.atMs[i] ?? NaN) - ms;
    return leftMs >= 0 && leftMs <= WAITING_MS;
  });
  const known = atMs.filter((ms) => !Number.isNaN(ms));
  if (known.length === 0 || isAhead.length < NEARLY_ALL * known.length) return false;
  if (train !== null && slot !== null) return true;
  return train !== null || (wordEvidence(title).get('dither-ready') ?? 0) >= WAITS;
}

/**
 * The trains that columns of times are of: titles that differ in one word alone, which says nothing by itself, `heron
 * ready` and `wren ready`.
 */
function trainsOf(titles: readonly string[]): ReadonlyMap<string, string> {
  const trains = new Map<string, string>();
  const words = titles.map(wordsOf);
  titles.forEach((title, i) => {
    for (const [j, other] of titles.entries()) {
      const [own = [], others = []] = [words[i], words[j]];
      if (other === title || own.length < 2 || own.length !== others.length) continue;
      const apart = own.flatMap((word, k) => (word === others[k] ? [] : [[word, others[k] ?? ''] as const]));
      const [[word, twin] = ['', '']] = apart;
      if (apart.length === 1 && isName(word) && isName(twin)) trains.set(title, word);
    }
  });
  return trains;
}

function wordsOf(title: string): string[] {
  return title.match(/[\p{L}\p{N}]+/gu) ?? [];
}

/** Whether a word may be a train's name: it tells no subject, no side and no event. */
function isName(word: string): boolean {
  return !isSubject(word) && sideOfTitle([word]) === null && wordEvidence(word).size === 0;
}

function withoutWord(title: string, word: string | null): string {
  return word === null
    ? title
    : wordsOf(title)
        .filter((one) => one !== word)
        .join(' ');
}
