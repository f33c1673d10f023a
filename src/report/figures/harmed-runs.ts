import { groupBy, type Cause, type CauseKind, type JudgedFrame } from '../../model/index.js';
import type { FrameRun } from './listed.js';

/** What lasts from frame to frame; every other cause is an event, with its own evidence for each frame. */
const LASTING: ReadonlySet<CauseKind> = new Set([
  'low',
  'twilight',
  'rough-guiding',
  'swollen',
  'dimmed',
  'no-sky',
  'other-filter',
]);
/** Shorter runs are quicker to read individually. */
const SHORTEST_RUN = 3;

/** What the frames of a run share; `null` for a single frame. */
function sharedBy({ verdict, causes, exposure }: JudgedFrame): string | null {
  // Trails that no interruption explains last too: the span of their cause is the exposure itself.
  const isLasting = ({ kind, span }: Cause): boolean =>
    LASTING.has(kind) || (kind === 'trailed' && span.startMs === exposure.startMs && span.endMs === exposure.endMs);
  return causes.length > 0 && causes.every(isLasting) ? `${verdict} ${causes.map(({ kind }) => kind).join(' ')}` : null;
}

interface Neighbours {
  readonly key: string | null;
  readonly frames: JudgedFrame[];
}

/** Consecutive frames of one train that are not kept, with the same key, in order. */
function neighboursOf(lights: readonly JudgedFrame[]): JudgedFrame[][] {
  const runs: Neighbours[] = [];
  let last: Neighbours | undefined;
  for (const frame of lights) {
    if (frame.verdict === 'kept') {
      last = undefined;
      continue;
    }
    const key = sharedBy(frame);
    if (key !== null && last?.key === key) last.frames.push(frame);
    else runs.push((last = { key, frames: [frame] }));
  }
  return runs.map(({ frames }) => frames);
}

/**
 * Frames that are not kept, sorted by begin: consecutive ones of one train that are doubtful or lost for the same
 * lasting reason are grouped, such as a target that stays low until dawn.
 */
export function harmedRuns(lights: readonly JudgedFrame[]): FrameRun[] {
  const perTrain = [...groupBy(lights, ({ train }) => train).values()];
  return perTrain
    .flatMap(neighboursOf)
    .flatMap((frames) => (frames.length < SHORTEST_RUN ? frames.map((frame) => [frame]) : [frames]))
    .flatMap((frames): FrameRun[] => {
      const [first, last] = [frames[0], frames.at(-1)];
      return first && last ? [{ first, last, frames }] : [];
    })
    .sort((a, b) => a.first.exposure.startMs - b.first.exposure.startMs);
}

/** The run of each frame, by frame id. */
export function runOfEach(runs: readonly FrameRun[]): ReadonlyMap<string, FrameRun> {
  return new Map(runs.flatMap((run) => run.frames.map(({ id }) => [id, run] as const)));
}
