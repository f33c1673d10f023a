import { formulaName } from './formulas.js';
import { numberOf } from './guiding-numbers.js';
import type { GuidingDraft } from './report.js';
import type { ListOfSamples } from './sample-lists.js';
import { isTime } from './time/first-fields.js';
import type { StampGuess } from './time/guess.js';
import { RoughClock } from './time/rough-clock.js';
import { stampsIn } from './time/stamp-shapes.js';

/** Fraction of steps in which a list's counts increase. */
const FORWARD = 0.98;
/** Maximum interval between samples, s; counts with larger steps are milliseconds. */
const LONGEST_STEP = 200;
const STEP_NAME =
  /^(?:dt|step|cadence|cadencia|cadenza|interval\w*|every|period\w*|takt|exp(?:osure|time)?)(?:_?(m?s|sec\w*|seconds?))?$/i;
/** Tolerance for the end of a batch relative to its record, ms. */
const OVER_MS = 30_000;

/** The times of list samples, and the patterns that read their own times. */
export interface ListTimes {
  readonly list: Omit<NonNullable<GuidingDraft['list']>, 'in'>;
  readonly rhythm?: GuidingDraft['rhythm'];
  readonly caught: readonly string[];
}

/** Finds the column with sample times, or with seconds since an instant of the record; `null` without one. */
export function timesOf(
  lists: readonly ListOfSamples[],
  columns: readonly string[],
  stamp: StampGuess,
  timePaths: readonly string[],
): ListTimes | null {
  const own = columns.find((name) => lists.every((list) => list.texts(name).every(isTime)));
  if (own !== undefined) {
    const pattern = patternOf(lists[0]?.texts(own)[0] ?? '', stamp.pattern);
    return pattern === null ? null : { list: { time: own }, caught: [pattern] };
  }
  const counted = columns.find((name) => lists.every((list) => runsForward(list.texts(name).map(numberOf))));
  if (counted !== undefined && goesOnWithLog(lists, counted, stamp, timePaths))
    return { list: { time: counted }, caught: [stamp.pattern] };
  const base = baseField(lists, counted, stamp);
  const since = base === null || timePaths.includes(base.path) ? null : base.path;
  const from = since === null ? {} : { since };
  const caught = since === null ? [] : [stamp.pattern];
  if (counted !== undefined) {
    const after = unitOf(lists, counted) === 1 ? formulaName(counted) : `${formulaName(counted)} / 1000`;
    return { list: { after, ...from }, caught };
  }
  const every = statedStep(lists);
  if (every === null) return null;
  return { list: from, rhythm: { every, timed: base?.isBegin === true ? 'first' : 'last', isStated: false }, caught };
}

/** The pattern of a sample's own time: that of the records, if it matches. */
function patternOf(text: string, own: string): string | null {
  const read = new RoughClock(own, 'start').read(text);
  if (read !== null && read.rest === '') return own;
  return (
    stampsIn(text).find(
      ({ pattern, start, end }) =>
        start === 0 &&
        end === text.length &&
        /\{(?:hour|serial-day|epoch|julian|mjd)/.test(pattern) &&
        !/\{[abc]\}/.test(pattern),
    )?.pattern ?? null
  );
}

function runsForward(values: readonly number[]): boolean {
  const steps = values.slice(1).map((value, i) => value - (values[i] ?? NaN));
  return values.every((value) => value >= 0) && steps.filter((step) => step > 0).length >= FORWARD * steps.length;
}

/** Seconds per count: samples come every few seconds. */
function unitOf(lists: readonly ListOfSamples[], column: string): number {
  if (/(?:^|_)(?:ms|millis\w*)$/i.test(column)) return 0.001;
  const steps = lists
    .flatMap((list) => {
      const values = list.texts(column).map(numberOf);
      return values.slice(1).map((value, i) => value - (values[i] ?? NaN));
    })
    .sort((a, b) => a - b);
  return (steps[Math.floor(steps.length / 2)] ?? 0) > LONGEST_STEP ? 0.001 : 1;
}

/** Whether the log uses the same counter as its samples: they reach about as far as their record, and never restart. */
function goesOnWithLog(
  lists: readonly ListOfSamples[],
  column: string,
  { pattern }: StampGuess,
  timePaths: readonly string[],
): boolean {
  if (!pattern.includes('{elapsed')) return false;
  const clock = new RoughClock(pattern, 'start');
  const going = lists.filter((list) => {
    const texts = list.texts(column);
    const [own, first, last] = [list.scalars.get(timePaths[0] ?? ''), texts[0], texts.at(-1)].map((text) =>
      text === undefined ? NaN : (clock.read(text)?.atMs ?? NaN),
    );
    if (own === undefined || first === undefined || last === undefined) return false;
    return Math.abs(last - own) < OVER_MS || Math.abs(first - own) < OVER_MS;
  });
  return going.length > 0.5 * lists.length;
}

/**
 * The field with the reference time of counts: of several times in the record the earliest for which the whole batch
 * fits before the latest. `null` if the record has none.
 */
function baseField(
  lists: readonly ListOfSamples[],
  counted: string | undefined,
  { pattern }: StampGuess,
): { readonly path: string; readonly isBegin: boolean } | null {
  const clock = new RoughClock(pattern, 'start');
  const votes = new Map<string, number>();
  let begins = 0;
  for (const list of lists) {
    const times = [...list.scalars].flatMap(([path, text]) => {
      const atMs = isTime(text) ? clock.read(text)?.atMs : undefined;
      return atMs === undefined ? [] : [{ path, atMs }];
    });
    const latestMs = Math.max(...times.map(({ atMs }) => atMs));
    const lastMs =
      counted === undefined ? 0 : numberOf(list.texts(counted).at(-1) ?? '') * 1000 * unitOf(lists, counted);
    const [best] = times
      .filter(({ atMs }) => times.length === 1 || atMs + lastMs <= latestMs + OVER_MS)
      .sort((a, b) => a.atMs - b.atMs);
    if (best === undefined) continue;
    votes.set(best.path, (votes.get(best.path) ?? 0) + 1);
    if (best.atMs < latestMs) begins++;
  }
  const [best] = [...votes].sort((a, b) => b[1] - a[1]);
  return best === undefined ? null : { path: best[0], isBegin: begins > 0.5 * lists.length };
}

/** Seconds between samples, as stated by a number next to the lists. */
function statedStep(lists: readonly ListOfSamples[]): number | null {
  for (const [path, text] of lists[0]?.scalars ?? []) {
    const [, unit] = STEP_NAME.exec(path.split('.').pop() ?? '') ?? [];
    const seconds = STEP_NAME.test(path.split('.').pop() ?? '') ? numberOf(text) * (unit === 'ms' ? 0.001 : 1) : NaN;
    if (seconds > 0.05 && seconds <= 60) return seconds;
  }
  return null;
}
