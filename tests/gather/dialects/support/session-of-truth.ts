import { existsSync, readFileSync } from 'node:fs';
import type { FrameTimes } from '../../../../src/gather/dialects/index.js';

/** An event that the truth beside a log states. */
interface TrueEvent {
  readonly at: string;
  readonly event: string;
  readonly train?: string;
  readonly seconds?: number;
  readonly filter?: string;
  readonly target?: string;
}

/** A line of `NAME.frames.jsonl`. */
interface FrameLine {
  readonly train?: string;
  readonly file: string;
  readonly begin: string;
  readonly seconds: number;
  readonly filter?: string;
  readonly target?: string;
}

/** A shutter is open this long at least after the line that announces it, and at most, ms. */
const OPENS_MS = { least: 300, most: 2500 } as const;
/** An exposure is over when its seconds are; the lines about both may have whole seconds. */
const SHORT_MS = 1500;
/** An end later than this is that of another exposure. */
const LATE_MS = 180_000;

/**
 * The frames beside a log: those listed in `NAME.frames.jsonl`, else one for each exposure of the truth that lasted its
 * stated seconds. Empty where the truth has none.
 *
 * @param stem path of the log without its ending
 */
export function framesBeside(stem: string): readonly FrameTimes[] {
  const listed = `${stem}.frames.jsonl`;
  const frames = existsSync(listed)
    ? jsonLines<FrameLine>(listed).map(({ begin, ...frame }) => ({ ...frame, beginMs: Date.parse(begin) }))
    : framesOfTruth(jsonLines<TrueEvent>(`${stem}.truth.jsonl`));
  return frames.sort((a, b) => a.beginMs - b.beginMs);
}

function framesOfTruth(truth: readonly TrueEvent[]): FrameTimes[] {
  const begun = truth.filter(({ event }) => event === 'exposure-begin');
  const ended = truth.filter(({ event }) => event === 'exposure-end' || event === 'exposure-abort');
  const taken = new Set<TrueEvent>();
  return begun.flatMap((begin, i): FrameTimes[] => {
    const fromMs = Date.parse(begin.at);
    const next = begun.find((one) => one.train === begin.train && Date.parse(one.at) > fromMs);
    const untilMs = next === undefined ? Infinity : Date.parse(next.at);
    const end = ended.find(
      (one) =>
        one.train === begin.train && !taken.has(one) && Date.parse(one.at) > fromMs && Date.parse(one.at) <= untilMs,
    );
    if (end !== undefined) taken.add(end);
    const seconds = begin.seconds ?? end?.seconds;
    if (seconds === undefined || seconds <= 0 || end?.event === 'exposure-abort') return [];
    const tookMs = end === undefined ? seconds * 1000 : Date.parse(end.at) - fromMs;
    if (tookMs < seconds * 1000 - SHORT_MS || tookMs > seconds * 1000 + LATE_MS) return [];
    const { train, filter, target } = begin;
    return [
      {
        file: `lights/${train ?? 'a'}_${String(i).padStart(4, '0')}.fits`,
        beginMs: fromMs + delayMs(i),
        seconds,
        ...(train === undefined ? {} : { train }),
        ...(filter === undefined ? {} : { filter }),
        ...(target === undefined ? {} : { target }),
      },
    ];
  });
}

/** A delay of its own for each exposure, the same in every run. */
function delayMs(i: number): number {
  const share = ((i * 2_654_435_761) % 4096) / 4096;
  return Math.round(OPENS_MS.least + share * (OPENS_MS.most - OPENS_MS.least));
}

function jsonLines<T>(file: string): T[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => JSON.parse(line) as T);
}
