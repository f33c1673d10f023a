import { MOTIONS } from '../lexicon/motions.js';
import { plainWords } from '../lexicon/plain-words.js';
import { namesStarless } from '../lexicon/state-changes.js';
import type { FieldLine } from './field-line.js';
import type { Kind } from './kind.js';

/** Pairs of marks for entering and leaving, in either role. */
const PAIRS: readonly (readonly [string, string])[] = [
  ['>', '<'],
  ['+', '-'],
  ['▶', '■'],
  ['▶', '◀'],
  ['►', '◄'],
  ['→', '←'],
  ['↑', '↓'],
  ['▲', '▼'],
  ['(', ')'],
  ['[', ']'],
  ['{', '}'],
  ['»', '«'],
  ['●', '○'],
];
/** A device or a chain in front, a mark, the number of a step, and its name. */
const MARKED =
  /^((?:[\p{L}\p{N}*#._-]{1,20}(?:\s*[:|;,]\s*|\s+)){0,2})([-><+▶■◀►◄→←↑↓▲▼()[\]{}»«●○])\s?(#[^\s;,|]*(?:\s*[|;,]\s*|\s+))?(\p{L}[^#=:,;([{]*?)(?=\s+(?:#|\p{L}+=)|\s{2,}|\s*[:,;([{]|\s*$)/u;
/** A mark and a short name or number, and nothing else. */
const IN_COLUMN = /^[><▶■◀►◄→←↑↓▲▼([{)\]}»«●○]\s?[\p{L}\p{N}][^\s]{0,20}$/u;
/** Minimum number of steps entered and left. */
const MIN_STEPS = 3;

/** Whether some column of a table marks steps entered and left, `>40` and `<40`. */
export function marksSteps(lines: readonly FieldLine[]): boolean {
  const values = new Map<string, Set<string>>();
  for (const { fields } of lines)
    for (const [path, value] of fields)
      if (IN_COLUMN.test(value)) values.set(path, (values.get(path) ?? new Set()).add(value));
  return [...values.values()].some((own) =>
    PAIRS.some(([one, other]) => {
      const both = [...own].filter((value) => value.startsWith(one) && own.has(`${other}${value.slice(1)}`));
      return both.length >= MIN_STEPS;
    }),
  );
}

interface Marked {
  readonly front: string;
  readonly mark: string;
  readonly name: string;
  readonly key: string;
  readonly isNumbered: boolean;
}

/**
 * The kinds of a log that marks steps on entering and leaving, `> 500 WAIT` and `< 500 WAIT`: steps named after a state
 * are treated as state changes, since leaving a wait, or a missing star, ends it.
 */
export function marksInTurn(kinds: readonly Kind[]): readonly Kind[] {
  const marked = new Map(kinds.map((kind) => [kind, markedIn(kind)] as const));
  const marks = marksOf(marked);
  if (marks === null) return kinds;
  const names = new Map<string, string>();
  for (const one of marked.values()) if (one?.mark === marks.enters) names.set(one.key, one.name);
  const left = new Set([...marked.values()].flatMap((one) => (one?.mark === marks.leaves ? [one.key] : [])));
  return kinds.map((kind) => {
    const one = marked.get(kind) ?? null;
    const name = one === null ? undefined : names.get(one.key);
    if (one === null || (one.mark !== marks.enters && one.mark !== marks.leaves)) return kind;
    const plain = withoutNumber(kind, one);
    if (name === undefined || !left.has(one.key)) return plain;
    if (!isState(name)) return inWords(plain, one, one.mark === marks.enters);
    const change = one.mark === marks.enters ? `· → ${name}` : `${name} → ·`;
    return { ...plain, wording: `${one.front}${change}`, lead: one.front.length };
  });
}

/** `< settling` as `end settling`: the meaning of the mark, before the step. */
function inWords(kind: Kind, { front, mark }: Marked, isEntered: boolean): Kind {
  const rest = kind.wording.slice(front.length + mark.length).trimStart();
  const words = plainWords(rest);
  // Messages with their own words need no mark.
  if (MOTIONS.start.test(words) || MOTIONS.stop.test(words) || MOTIONS.abort.test(words)) return kind;
  return { ...kind, wording: `${front}${isEntered ? 'begin' : 'end'} ${rest}`, lead: front.length };
}

/** The number of a step is not a value. */
function withoutNumber(kind: Kind, { front, isNumbered }: Marked): Kind {
  const place = front.split('#').length - 1;
  return isNumbered ? { ...kind, slots: kind.slots.filter((_, i) => i !== place) } : kind;
}

function markedIn({ wording }: Kind): Marked | null {
  const [, front = '', mark, number, name] = MARKED.exec(wording) ?? [];
  return mark === undefined || name === undefined
    ? null
    : { front, mark, name, key: `${front}${name.split(/\s/)[0] ?? name}`, isNumbered: number !== undefined };
}

/** The marks for entering and leaving most steps: a step is entered first. */
function marksOf(marked: ReadonlyMap<Kind, Marked | null>): { enters: string; leaves: string } | null {
  const firstLines = new Map<string, Map<string, number>>();
  for (const [{ firstLine }, one] of marked) {
    if (one === null) continue;
    const own = firstLines.get(one.mark) ?? new Map<string, number>();
    firstLines.set(one.mark, own.set(one.key, Math.min(firstLine, own.get(one.key) ?? Infinity)));
  }
  for (const [one, other] of PAIRS) {
    const [a, b] = [firstLines.get(one), firstLines.get(other)];
    if (a === undefined || b === undefined) continue;
    const both = [...a].flatMap(([key, line]) => [(b.get(key) ?? NaN) - line]).filter((lag) => !Number.isNaN(lag));
    const later = both.filter((lag) => lag > 0).length;
    if (both.length < MIN_STEPS || later === both.length - later) continue;
    return later > both.length - later ? { enters: one, leaves: other } : { enters: other, leaves: one };
  }
  return null;
}

/** Names of states rather than actions: leaving such a step ends the state. */
function isState(name: string): boolean {
  const words = plainWords(name);
  return (
    namesStarless(words) ||
    (['wait', 'pause', 'lose', 'danger', 'ready'] as const).some((motion) => MOTIONS[motion].test(words))
  );
}
