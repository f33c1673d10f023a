import { counted, type JudgedFrame, type Night, oncePer } from '../../model/index.js';

/** A night with more lights lists what is not kept, and the rest by runs; `frames.csv` has them all. */
export const MOST_LISTED = 600;

/** Frames in a row that share train, target, filter, verdict and first cause. */
export interface FrameRun {
  readonly first: JudgedFrame;
  readonly last: JudgedFrame;
  readonly frames: readonly JudgedFrame[];
}

/** Whether every light has a row of its own. */
export function listsAll({ accounts }: Pick<Night, 'accounts'>): boolean {
  return accounts.lights.length <= MOST_LISTED;
}

/** Whether a light has a row of its own, and an anchor, on the page. */
export const listing = oncePer((night: Pick<Night, 'accounts'>): ((frame: JudgedFrame) => boolean) => {
  if (listsAll(night)) return () => true;
  const harmed = night.accounts.lights.filter((frame) => frame.verdict !== 'kept').slice(0, MOST_LISTED);
  const ids = new Set(harmed.map(({ id }) => id));
  return ({ id }) => ids.has(id);
});

/** Frames in order of time as they are listed: alone, or in runs of their like. */
export function runsOf(frames: readonly JudgedFrame[], isListed: (frame: JudgedFrame) => boolean): FrameRun[] {
  const runs: { key: string; frames: JudgedFrame[] }[] = [];
  for (const frame of frames) {
    const key = isListed(frame)
      ? frame.id
      : JSON.stringify([frame.target, frame.filter, frame.verdict, frame.causes[0]?.kind]);
    const last = runs[runs.length - 1];
    if (last?.key === key) last.frames.push(frame);
    else runs.push({ key, frames: [frame] });
  }
  return runs.flatMap(({ frames: own }): FrameRun[] => {
    const [first, last] = [own[0], own[own.length - 1]];
    return first && last ? [{ first, last, frames: own }] : [];
  });
}

/** `134 frames`, for a run. */
export function runText({ frames }: FrameRun): string {
  return counted(frames.length, 'frame');
}

/** Of a series in order, at most so many, evenly; what is drawn of thousands. */
export function evenly<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  const step = items.length / most;
  return Array.from({ length: most }, (_, index) => items[Math.floor(index * step)]).flatMap((item) =>
    item === undefined ? [] : [item],
  );
}
