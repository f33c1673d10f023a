import { counted, type JudgedFrame, type Night, oncePer } from '../../model/index.js';

/** A night with more lights lists only those not kept, and summarises the rest as runs; `frames.csv` has them all. */
export const MOST_LISTED = 600;

/** Consecutive frames that share train, target, filter, verdict and first cause. */
export interface FrameRun {
  readonly first: JudgedFrame;
  readonly last: JudgedFrame;
  readonly frames: readonly JudgedFrame[];
}

/** Whether every light has a row of its own. */
export function listsAll({ accounts }: Pick<Night, 'accounts'>): boolean {
  return accounts.lights.length <= MOST_LISTED;
}

/** Whether a light has its own row, and an anchor, on the page. */
export const listing = oncePer((night: Pick<Night, 'accounts'>): ((frame: JudgedFrame) => boolean) => {
  if (listsAll(night)) return () => true;
  const harmed = night.accounts.lights.filter((frame) => frame.verdict !== 'kept').slice(0, MOST_LISTED);
  const ids = new Set(harmed.map(({ id }) => id));
  return ({ id }) => ids.has(id);
});

/** Frames in chronological order as listed: individually, or in runs. */
export function runsOf(frames: readonly JudgedFrame[], isListed: (frame: JudgedFrame) => boolean): FrameRun[] {
  const runs: { first: JudgedFrame; last: JudgedFrame; frames: JudgedFrame[] }[] = [];
  /** The run that may continue; an individually listed one does not. */
  let open: (typeof runs)[number] | undefined;
  for (const frame of frames) {
    const isAlone = isListed(frame);
    if (open && !isAlone && areAlike(open.first, frame)) {
      open.last = frame;
      open.frames.push(frame);
    } else {
      const run = { first: frame, last: frame, frames: [frame] };
      runs.push(run);
      open = isAlone ? undefined : run;
    }
  }
  return runs;
}

function areAlike(a: JudgedFrame, b: JudgedFrame): boolean {
  return (
    a.target === b.target && a.filter === b.filter && a.verdict === b.verdict && a.causes[0]?.kind === b.causes[0]?.kind
  );
}

/** `134 frames`, for a run. */
export function runText({ frames }: FrameRun): string {
  return counted(frames.length, 'frame');
}

/** At most this many items of an ordered series, evenly spaced; for drawing thousands. */
export function evenly<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  const step = items.length / most;
  return Array.from({ length: most }, (_, index) => items[Math.floor(index * step)]).flatMap((item) =>
    item === undefined ? [] : [item],
  );
}
