/** Frames lost to dithers: the mount moved, or was still settling, while their shutters were open. */
import type { Cause, DitherCycle, JudgedFrame } from '../model/index.js';

/** What a dither does to stars, as named by its log or by the pixels. */
const BY_MOTION: readonly Cause['kind'][] = ['mount-motion', 'trailed', 'doubled'];

const isOf = ({ kind, span }: Cause, cycle: DitherCycle): boolean =>
  BY_MOTION.includes(kind) &&
  [cycle.move, cycle.settle].some((s) => s?.startMs === span.startMs && s.endMs === span.endMs);

/** Whether one of the dithers, or its settling, harmed the frame. */
export function isDithered({ causes }: JudgedFrame, dithers: readonly DitherCycle[]): boolean {
  return causes.some((cause) => dithers.some((cycle) => isOf(cause, cycle)));
}

/** Whether the frame would have been kept without these dithers. */
export function isLostToAlone({ verdict, causes }: JudgedFrame, dithers: readonly DitherCycle[]): boolean {
  return verdict !== 'kept' && causes.every((cause) => dithers.some((cycle) => isOf(cause, cycle)));
}
