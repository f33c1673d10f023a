/**
 * One target's choices through the night in flat tables: the searches look them up millions of times. Since a target's
 * lines are its own, exposures of one target do not affect another.
 */
import { itemAt } from '../model/collections.js';
import { changeOf, effortOf, isOpen, openHours, type Change, type Problem } from './problem.js';

export interface Board {
  readonly target: number;
  readonly slots: number;
  readonly trains: number;
  /** Own choices, as indices among those of the problem. */
  readonly choices: readonly number[];
  /** Own lines, as indices among those of the problem, and what each lacks, hours. */
  readonly lines: readonly number[];
  readonly lacking: Float64Array;
  /** Kinds of change: the trains that change their filter (bit n for train n), and last of all another target. */
  readonly kinds: number;
  /** Whether a choice is possible: `[slot × choices + choice]`. */
  readonly isOpen: Uint8Array;
  /** Value of a kept hour: `[(slot × choices + choice) × trains + train]`. */
  readonly worth: Float64Array;
  /** Kept hours of a slot without any limit: `[((slot × choices + choice) × kinds + kind) × trains + train]`. */
  readonly hours: Float64Array;
  /** What a slot costs beside its time: `[(slot × choices + choice) × kinds + kind]`. */
  readonly effort: Float64Array;
  /** Own line, −1 for a train that rests: `[choice × trains + train]`. */
  readonly lineOf: Int16Array;
  /**
   * Filters as groups of lines: which one a line is taken through, and a train has in a choice (`[choice × trains +
   * train]`); −1 for a line that accepts any, and a train that is idle or serves such a line. And the minimum cost of a
   * change to each besides its time, in value.
   */
  readonly groupOf: Int16Array;
  readonly groupAt: Int16Array;
  readonly changeEffort: Float64Array;
  /** The kind of change from one own choice to another: `[from × choices + to]`. */
  readonly change: Uint8Array;
  readonly views: readonly View[];
}

/** Choices as seen by the trains that keep their filter: unaffected by a change of the others. */
export interface View {
  readonly size: number;
  /** The class of an own choice. */
  readonly keys: Int32Array;
  /** For each train that keeps its filter: how far apart two of its filters are among the keys, and how many it has. */
  readonly digits: readonly { readonly stride: number; readonly radix: number }[];
}

/** The boards of all targets that have a choice. */
export function boardsOf(problem: Problem): Board[] {
  const targets = [...new Set(problem.choices.map(({ target }) => target))].filter((target) => target >= 0);
  return targets.map((target) => boardOf(problem, target));
}

function boardOf(problem: Problem, target: number): Board {
  const choices = problem.choices.flatMap((choice, index) => (choice.target === target ? [index] : []));
  const own = choices.map((index) => itemAt(problem.choices, index));
  const trains = Math.max(...own.map(({ picks }) => picks.length));
  const lines = [...new Set(own.flatMap(({ picks }) => picks.flatMap((pick) => pick?.line ?? [])))];
  const kinds = 2 ** trains + 1;
  const [count, slots] = [choices.length, problem.slots.length];
  const open = new Uint8Array(slots * count);
  const worth = new Float64Array(slots * count * trains);
  const hours = new Float64Array(slots * count * kinds * trains);
  const effort = new Float64Array(slots * count * kinds);
  const changes: readonly Change[] = [...Array(kinds - 1).keys(), 'target'];
  problem.slots.forEach((here, slot) => {
    own.forEach((choice, at) => {
      const index = itemAt(choices, at);
      const values = itemAt(here.values, index);
      const cell = slot * count + at;
      worth.set(values, cell * trains);
      if (!isOpen(problem, slot, index)) return;
      open[cell] = 1;
      changes.forEach((change, kind) => {
        effort[cell * kinds + kind] = effortOf(problem, slot, choice, index, change);
        choice.picks.forEach((pick, train) => {
          if (!pick) return;
          const rate = itemAt(itemAt(here.rates, index), train);
          hours[(cell * kinds + kind) * trains + train] = rate * openHours(problem, slot, choice, change, train);
        });
      });
    });
  });
  const change = new Uint8Array(count * count);
  own.forEach((from, i) => {
    own.forEach((to, j) => {
      const kind = changeOf(from, to);
      change[i * count + j] = kind === 'target' ? kinds - 1 : kind;
    });
  });
  const lineOf = own.flatMap(({ picks }) => picks.map((pick) => (pick ? lines.indexOf(pick.line) : -1)));
  const { groupOf, groupAt, changeEffort } = groupsOf(problem, choices, lines);
  return {
    target,
    slots,
    trains,
    choices,
    lines,
    lacking: Float64Array.from(lines, (line) => itemAt(problem.lacking, line)),
    kinds,
    isOpen: open,
    worth,
    hours,
    effort,
    lineOf: Int16Array.from(lineOf),
    groupOf,
    groupAt,
    changeEffort,
    change,
    views: Array.from({ length: kinds - 1 }, (_, changing) => viewOf(own, trains, changing)),
  };
}

function groupsOf(
  { choices: all, effort, full }: Problem,
  choices: readonly number[],
  lines: readonly number[],
): Pick<Board, 'groupOf' | 'groupAt' | 'changeEffort'> {
  const filtersOf = lines.map(
    (line) =>
      new Set(choices.flatMap((index) => itemAt(all, index).picks.flatMap((p) => (p?.line === line ? p.filter : [])))),
  );
  const filters = [...new Set(filtersOf.flatMap((own) => (own.size === 1 ? [...own] : [])))];
  const groupOf = Int16Array.from(filtersOf, (own) => (own.size === 1 ? filters.indexOf([...own].join()) : -1));
  const changeEffort = new Float64Array(filters.length).fill(Infinity);
  const groupAt = choices.flatMap((index) =>
    itemAt(all, index).picks.map((pick, train) => {
      if (!pick) return -1;
      const group = filters.indexOf(pick.filter);
      const own = effort.filter * itemAt(itemAt(full, index), train);
      if (group >= 0) changeEffort[group] = Math.min(itemAt(changeEffort, group), own);
      return group;
    }),
  );
  return { groupOf, groupAt: Int16Array.from(groupAt), changeEffort };
}

function viewOf(own: readonly Problem['choices'][number][], trains: number, changing: number): View {
  const keys = new Int32Array(own.length);
  const digits: View['digits'][number][] = [];
  let size = 1;
  for (let train = 0; train < trains; train++) {
    if ((changing >> train) & 1) continue;
    const filters = [...new Set(own.flatMap(({ picks }) => picks.at(train)?.filter ?? []))];
    own.forEach(({ picks }, at) => {
      const filter = picks.at(train)?.filter;
      if (filter !== undefined) keys[at] = itemAt(keys, at) + size * (1 + filters.indexOf(filter));
    });
    digits.push({ stride: size, radix: filters.length + 1 });
    size *= filters.length + 1;
  }
  return { size, keys, digits };
}
