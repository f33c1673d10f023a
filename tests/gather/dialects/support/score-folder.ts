import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bestFits } from '../../../../src/gather/dialects/draft/frames/coincidence.js';
import {
  draftDialect,
  type FrameTimes,
  loadDialect,
  readDialectLog,
  readSample,
} from '../../../../src/gather/dialects/index.js';
import { draftBeside } from '../../../../src/log-draft.js';
import { eveningOf } from '../../../../src/log-surroundings.js';
import { groupBy, partitionPoint, type LogEvent } from '../../../../src/model/index.js';
import { framesBeside } from './session-of-truth.js';

/** How an untouched draft does on one log of a folder of strangers' formats. */
export interface StrangerScore {
  readonly log: string;
  readonly truth: number;
  /** Events of the truth that were found: same name, same instant within the tolerance, each used once. */
  readonly right: number;
  /** Events that are not in the truth. */
  readonly wrong: number;
  readonly missing: number;
  /** Facts that the truth states for events that were found, and how many of them are the same. */
  readonly fields: number;
  readonly fieldsRight: number;
  /** The same for each event and fact, with those that differ from what the truth states. */
  readonly facts: ReadonlyMap<string, FactScore>;
  /** Share of the found events that stand at an instant at which the truth has some event. */
  readonly timesRight: number;
  /** Guiding samples of the truth, and those found at their time with their values. */
  readonly samples: number;
  readonly samplesRight: number;
  readonly wrongNames: ReadonlyMap<string, number>;
  readonly missingNames: ReadonlyMap<string, number>;
  /** The events of the truth that were not found, and the lines that tell them where the truth names these. */
  readonly missed: readonly { readonly event: string; readonly line?: number }[];
  readonly yaml: string;
}

/** How often a fact of an event is right, left out, and another than the truth has it. */
export interface FactScore {
  readonly right: number;
  readonly missing: number;
  readonly wrong: number;
  /** Some that are not right, as the draft has them and as they are. */
  readonly examples: readonly string[];
}

/** Names that mean the same: an exposure that is cut short ends as others do. */
const SAME: Readonly<Record<string, string>> = {
  'exposure-abort': 'exposure-end',
};
export const isSameEvent = (a: string, b: string): boolean => nameOf(a) === nameOf(b);
const nameOf = (event: string): string => SAME[event] ?? event;

interface TrueEvent {
  readonly at: string;
  readonly event: string;
  readonly line?: number;
  readonly [field: string]: unknown;
}

/** Stamps of whole seconds, and ends that are derived from them, are this far from the truth at most. */
const TOLERANCE_MS = 1100;
/** What is no field of an event: hands have written down numbers of frames as well. */
const NOT_FACTS: ReadonlySet<string> = new Set(['at', 'event', 'line', 'failed', 'whyKind', 'frame']);

/** The logs of a folder: all files that have a truth beside them. */
export function logsIn(folder: string): string[] {
  const names = readdirSync(folder);
  return names
    .filter((name) => !/\.(?:truth\.jsonl|samples\.jsonl|frames\.jsonl|md)$/.test(name))
    .filter((name) => names.includes(`${name.replace(/\.[^.]+$/, '')}.truth.jsonl`))
    .sort();
}

/** Drafts a dialect for a log, reads the log by it without an edit, and compares with the truth beside it. */
export async function scoreLog(folder: string, log: string, zone = 'Europe/Madrid'): Promise<StrangerScore> {
  return scoreDialect(folder, log, draftDialect(await readSample(folder, log)).yaml, zone);
}

/** The same for a draft made beside the frames of the session; `null` where there are none. */
export async function scoreBesideFrames(
  folder: string,
  log: string,
  zone = 'Europe/Madrid',
): Promise<StrangerScore | null> {
  const frames = framesBeside(join(folder, log.replace(/\.[^.]+$/, '')));
  if (frames.length === 0) return null;
  const sample = await readSample(folder, log);
  const { yaml } = await draftBeside(join(folder, log), sample, { frames, site: null, zone });
  return scoreDialect(folder, log, yaml, zone, eveningOf(frames, zone), frames);
}

/** Reads a log by a dialect and compares with the truth beside it. */
export async function scoreDialect(
  folder: string,
  log: string,
  yaml: string,
  zone = 'Europe/Madrid',
  sessionDate = '2026-10-14',
  frames: readonly FrameTimes[] = [],
): Promise<StrangerScore> {
  const stem = join(folder, log.replace(/\.[^.]+$/, ''));
  const loaded = loadDialect('draft.yaml', yaml);
  if (loaded.dialect === null)
    throw new Error(`${log}: ${loaded.warnings.map(({ message }) => message).join('\n')}\n${yaml}`);
  const read = await readDialectLog(folder, log, loaded.dialect, { zone, sessionDate });
  const truth = byClockOf(frames, jsonLines<TrueEvent>(`${stem}.truth.jsonl`));
  const free = new Set(read.events);
  const named = groupBy(read.events, ({ event }) => nameOf(event));
  const missing: TrueEvent[] = [];
  const facts = new Map<string, FactScore>();
  const isOfOne = new Set(truth.flatMap(({ train }) => train ?? [])).size === 1;
  for (const event of truth) {
    const atMs = Date.parse(event.at);
    let best: LogEvent | undefined;
    for (const one of named.get(nameOf(event.event)) ?? []) {
      const distanceMs = Math.abs(one.atMs - atMs);
      if (distanceMs > (best === undefined ? TOLERANCE_MS : Math.abs(best.atMs - atMs)) || !free.has(one)) continue;
      if (best === undefined || distanceMs < Math.abs(best.atMs - atMs)) best = one;
    }
    if (best === undefined) {
      missing.push(event);
      continue;
    }
    free.delete(best);
    const found = new Map<string, unknown>(Object.entries(best));
    for (const [name, value] of Object.entries(event)) {
      if (NOT_FACTS.has(name)) continue;
      const stated = found.get(factName(event.event, name));
      if (name === 'train' && SHARED.test(event.event)) continue;
      addFact(facts, event, name, value, name === 'train' ? trainIn(stated, value, isOfOne) : stated);
    }
  }
  const lines = readFileSync(join(folder, log), 'latin1').split('\n');
  const asStated = new Set(
    [...free].filter(
      (event) =>
        endsAsStated(event, truth) ||
        settlesAtOnce(event, truth) ||
        beganAsTold(event, truth, lines) ||
        savedAsTold(event, truth),
    ),
  );
  for (const event of asStated) free.delete(event);
  const instants = Float64Array.from(truth, ({ at }) => Date.parse(at)).sort();
  const counted = read.events.filter((event) => !asStated.has(event));
  const onTime = counted.filter(({ atMs }) => {
    const next = partitionPoint(instants, (instant) => instant >= atMs - TOLERANCE_MS);
    return (instants[next] ?? Infinity) <= atMs + TOLERANCE_MS;
  });
  const samples = sampleScore(stem, read.guiding);
  return {
    log,
    truth: truth.length,
    right: truth.length - missing.length,
    wrong: free.size,
    missing: missing.length,
    fields: sumOf(facts, ({ right, missing: none, wrong }) => right + none + wrong),
    fieldsRight: sumOf(facts, ({ right }) => right),
    facts,
    timesRight: counted.length === 0 ? 0 : onTime.length / counted.length,
    ...samples,
    wrongNames: countsOf([...free].map(({ event }) => nameOf(event))),
    missingNames: countsOf(missing.map(({ event }) => event)),
    missed: missing,
    yaml,
  };
}

/** What the mount and the guiding do concerns every train, whichever of them is named. */
const SHARED = /^(?:dither-(?:begin|end)|settling|guiding|star-gap|slew|centre|flip|hold)/;

/**
 * A train as a report takes it: in any case of letters, and where a log is of one train and names none, the train that
 * the rig file lists the log under.
 */
function trainIn(stated: unknown, value: unknown, isOfOne: boolean): unknown {
  if (stated === undefined) return isOfOne ? value : undefined;
  return String(stated).toLowerCase() === String(value).toLowerCase() ? value : stated;
}

/** Some hands name the filter that a wheel turns to as that of an exposure. */
function factName(event: string, name: string): string {
  return name === 'filter' && event.startsWith('filter-') ? 'to' : name;
}

/** Farther than this from the frames, and more than whole minutes can be, the truth is by a log's clock that was off. */
const OFF_MS = 65_000;
const NEAR_MS = 20_000;

/** The truth of a log whose clock was off, by the clock of the frames. */
function byClockOf(frames: readonly FrameTimes[], truth: readonly TrueEvent[]): readonly TrueEvent[] {
  const begins = truth.flatMap(({ at, event }) => (event === 'exposure-begin' ? [Date.parse(at)] : []));
  const [best] = bestFits(
    begins,
    frames.map(({ beginMs }) => beginMs),
    NEAR_MS,
  );
  if (best === undefined || Math.abs(best.shiftMs) < OFF_MS) return truth;
  return truth.map((event) => ({ ...event, at: new Date(Date.parse(event.at) - best.soonestMs).toISOString() }));
}

const MOST_EXAMPLES = 3;

function addFact(
  facts: Map<string, FactScore>,
  { event, line }: TrueEvent,
  name: string,
  value: unknown,
  found: unknown,
): void {
  const key = `${event}.${name}`;
  const { right, missing, wrong, examples } = facts.get(key) ?? { right: 0, missing: 0, wrong: 0, examples: [] };
  // That a thing came out well needs no saying.
  const isRight = found === value || (name === 'ok' && value === true && found === undefined);
  const text = `line ${line ?? '?'}: ${JSON.stringify(found) ?? 'none'} for ${JSON.stringify(value)}`;
  facts.set(key, {
    right: right + (isRight ? 1 : 0),
    missing: missing + (!isRight && found === undefined ? 1 : 0),
    wrong: wrong + (!isRight && found !== undefined ? 1 : 0),
    examples: isRight || examples.length >= MOST_EXAMPLES ? examples : [...examples, text],
  });
}

function sumOf(facts: ReadonlyMap<string, FactScore>, number: (fact: FactScore) => number): number {
  return [...facts.values()].reduce((sum, fact) => sum + number(fact), 0);
}

/** A frame's exposure that is aborted, or logged late, ends within this of its stated length, ms. */
const LATE_MS = 60_000;

/**
 * Whether an end is that of an exposure of which the truth has the beginning and the length alone: newer hands have
 * written such ends down, older ones have not. It is no mistake, and nothing found.
 */
function endsAsStated(event: { readonly atMs: number; readonly event: string }, truth: readonly TrueEvent[]): boolean {
  if (event.event !== 'exposure-end') return false;
  return truth.some((begin) => {
    if (begin.event !== 'exposure-begin' || typeof begin.seconds !== 'number') return false;
    const fromMs = Date.parse(begin.at);
    const untilMs = fromMs + begin.seconds * 1000;
    if (Math.abs(untilMs - event.atMs) > TOLERANCE_MS) return false;
    return !truth.some((end) => {
      const endMs = Date.parse(end.at);
      const isEnd = nameOf(end.event) === 'exposure-end' && end.train === begin.train;
      return isEnd && endMs > fromMs && endMs <= untilMs + LATE_MS;
    });
  });
}

/** What settling follows at once (common practice, no source), and the longest that it takes, ms. */
const SETTLES: ReadonlySet<string> = new Set(['dither-begin', 'dither-end', 'guiding-begin', 'guiding-rest-end']);
const SETTLED_MS = 120_000;

/**
 * Whether a settling begins with what the truth has it follow, and the truth has its end but writes no beginnings of
 * settling down, though the log says how long it took: no mistake either, and nothing found.
 */
function settlesAtOnce(event: { readonly atMs: number; readonly event: string }, truth: readonly TrueEvent[]): boolean {
  if (event.event !== 'settling-begin' || truth.some((one) => one.event === 'settling-begin')) return false;
  const follows = truth.some(
    (one) => SETTLES.has(one.event) && Math.abs(Date.parse(one.at) - event.atMs) <= TOLERANCE_MS,
  );
  return (
    follows &&
    truth.some(({ at, event: name }) => {
      const afterMs = Date.parse(at) - event.atMs;
      return name === 'settling-end' && afterMs > 0 && afterMs <= SETTLED_MS;
    })
  );
}

/**
 * Whether what begins here is what the truth has the end of alone, on a line of the log that says how many seconds it
 * took: no mistake either, and nothing found.
 */
function beganAsTold(
  event: { readonly atMs: number; readonly event: string },
  truth: readonly TrueEvent[],
  lines: readonly string[],
): boolean {
  if (!event.event.endsWith('-begin') || truth.some((one) => one.event === event.event)) return false;
  const end = event.event.replace(/begin$/, 'end');
  return truth.some(({ at, event: name, line }) => {
    if (name !== end || line === undefined) return false;
    const tookMs = Date.parse(at) - event.atMs;
    const numbers = lines[line - 1]?.match(/\d+(?:[.,]\d+)?/g) ?? [];
    return (
      tookMs > 0 && numbers.some((text) => Math.abs(Number(text.replace(',', '.')) * 1000 - tookMs) <= TOLERANCE_MS)
    );
  });
}

/**
 * Whether a frame is saved where the truth has the end of its exposure with the file's name as a fact, and no saved
 * frames of their own: no mistake either, and nothing found.
 */
function savedAsTold(
  event: { readonly atMs: number; readonly event: string; readonly file?: unknown },
  truth: readonly TrueEvent[],
): boolean {
  if (event.event !== 'frame-saved' || typeof event.file !== 'string') return false;
  if (truth.some((one) => one.event === 'frame-saved')) return false;
  return truth.some(
    (one) =>
      one.event === 'exposure-end' &&
      one.file === event.file &&
      Math.abs(Date.parse(one.at) - event.atMs) <= TOLERANCE_MS,
  );
}

interface TrueSample {
  readonly at: string;
  readonly ra: number;
  readonly dec: number;
}

/** Hands have written the errors in arcseconds, or in the log's own unit, or both. */
function sampleIn(
  row: Partial<TrueSample> & { readonly at: string; readonly raArcsec?: number; readonly decArcsec?: number },
): TrueSample {
  return { at: row.at, ra: row.raArcsec ?? row.ra ?? NaN, dec: row.decArcsec ?? row.dec ?? NaN };
}

function sampleScore(
  stem: string,
  guiding:
    | { readonly atMs: Float64Array; readonly raArcsec: Float64Array; readonly decArcsec: Float64Array }
    | undefined,
): { samples: number; samplesRight: number } {
  let truth: TrueSample[];
  try {
    truth = jsonLines<Parameters<typeof sampleIn>[0]>(`${stem}.samples.jsonl`).map(sampleIn);
  } catch {
    return { samples: 0, samplesRight: 0 };
  }
  if (guiding === undefined) return { samples: truth.length, samplesRight: 0 };
  // The truth may be pixels: the scale, whatever it is, is the same for all samples.
  const byTime = new Map([...guiding.atMs].map((atMs, i) => [Math.round(atMs / 1000), i] as const));
  const pairs = truth.flatMap((sample) => {
    const i = byTime.get(Math.round(Date.parse(sample.at) / 1000));
    return i === undefined ? [] : [{ sample, ra: guiding.raArcsec[i] ?? NaN, dec: guiding.decArcsec[i] ?? NaN }];
  });
  const largest = [...pairs].sort((a, b) => Math.abs(b.sample.ra) - Math.abs(a.sample.ra))[0];
  const scale = largest === undefined ? NaN : largest.ra / largest.sample.ra;
  const right = pairs.filter(
    ({ sample, ra, dec }) => Math.abs(ra - sample.ra * scale) < 0.01 && Math.abs(dec - sample.dec * scale) < 0.01,
  );
  return { samples: truth.length, samplesRight: right.length };
}

function jsonLines<T>(file: string): T[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => JSON.parse(line) as T);
}

function countsOf(names: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
}

/** One line a log. */
export function scoreLine(score: StrangerScore): string {
  const percent = (part: number, whole: number): string => `${((100 * part) / Math.max(1, whole)).toFixed(1)} %`;
  const list = (names: ReadonlyMap<string, number>): string =>
    [...names].map(([name, count]) => `${name} ${count}`).join(', ');
  return [
    `${score.log}: ${percent(score.right, score.truth)} right, ${percent(score.wrong, score.truth)} wrong, times ${percent(score.timesRight, 1)}`,
    `fields ${percent(score.fieldsRight, score.fields)}`,
    ...(score.samples > 0 ? [`samples ${score.samplesRight}/${score.samples}`] : []),
    `wrong: ${list(score.wrongNames) || 'none'}; missing: ${list(score.missingNames) || 'none'}`,
  ].join('; ');
}

/** One line for each fact of an event that is left out or wrong somewhere in a log. */
export function factLines({ facts }: StrangerScore): string {
  return [...facts]
    .filter(([, { missing, wrong }]) => missing + wrong > 0)
    .sort(([, a], [, b]) => b.missing + b.wrong - a.missing - a.wrong)
    .map(
      ([name, { right, missing, wrong, examples }]) =>
        `  ${name}: ${right} right, ${missing} missing, ${wrong} wrong; ${examples.join('; ')}`,
    )
    .join('\n');
}
