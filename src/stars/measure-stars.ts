/**
 * Star measurements of frames: from the cache if their files are unchanged, else from the pixels, in worker threads.
 */
import type { Warning } from '../model/index.js';
import { StarCache } from './cache.js';
import { measureAll, STAR_WORKER, threadsFor } from './threads.js';
import {
  type FrameMeasurement,
  type FrameToMeasure,
  isMeasured,
  type MeasuredStars,
  type MeasureOptions,
} from './types.js';

/**
 * Measures the stars of frames: from the cache if their files are unchanged, else from the pixels, in worker threads.
 * Frames that cannot be measured get a reason; nothing in a file makes it throw.
 *
 * `stars.flux` and `stars.shift` stay `null`: they need the other frames of the group (`relativeFlux`, registration).
 */
export async function measureStars(frames: readonly FrameToMeasure[], options: MeasureOptions): Promise<MeasuredStars> {
  const { by, signal, onProgress, cacheFolder } = options;
  const cache = cacheFolder === undefined ? undefined : new StarCache(cacheFolder);
  const measured = new Map<string, FrameMeasurement>();
  const open: FrameToMeasure[] = [];
  for (const frame of frames) {
    const known = cache?.read(frame, by);
    if (known === undefined) open.push(frame);
    else measured.set(frame.id, known);
  }
  let bytes = 0;
  let cacheFailed = false;
  const tell = (): void => onProgress?.({ done: measured.size, total: frames.length, bytes });
  tell();
  if (open.length > 0) {
    const program = options.threadProgram ?? STAR_WORKER;
    const threads = threadsFor(open.length, options.threads, program);
    await measureAll(open, by, threads, program, signal, (frame, measurement) => {
      measured.set(frame.id, measurement);
      bytes += frame.sizeBytes;
      // A reason may be temporary: a disk that was absent, a file that was being copied.
      if (isMeasured(measurement) && cache?.write(frame, by, measurement) === false) cacheFailed = true;
      tell();
    });
    cache?.prune();
  }
  return { measured, warnings: warningsOf(frames, measured, cacheFailed, cacheFolder) };
}

function warningsOf(
  frames: readonly FrameToMeasure[],
  measured: ReadonlyMap<string, FrameMeasurement>,
  cacheFailed: boolean,
  cacheFolder: string | undefined,
): Warning[] {
  const byReason = new Map<string, FrameToMeasure[]>();
  for (const frame of frames) {
    const measurement = measured.get(frame.id);
    if (measurement === undefined || isMeasured(measurement)) continue;
    byReason.set(measurement.reason, [...(byReason.get(measurement.reason) ?? []), frame]);
  }
  const warnings: Warning[] = [...byReason].map(([reason, [first, ...more]]) => ({
    code: 'stars-not-measured',
    message:
      `Stars not measured in ${first?.id ?? ''}` +
      (more.length > 0 ? ` and ${more.length} more ${more.length === 1 ? 'frame' : 'frames'}` : '') +
      `: ${reason}.`,
    count: more.length + 1,
  }));
  const left = frames.length - measured.size;
  if (left > 0)
    warnings.push({
      code: 'stars-interrupted',
      message:
        `Measuring the stars was interrupted: ${left} of ${frames.length} frames are left out. Run the report ` +
        'again to measure them.',
      count: left,
    });
  if (cacheFailed)
    warnings.push({
      code: 'star-cache-unwritable',
      message:
        `Star measurements could not be remembered in ${cacheFolder ?? ''}: check that the folder is writable ` +
        'and the disk has room. The next report measures again.',
    });
  return warnings;
}
