/**
 * Headers written in local time by mistake, where the rig file says so (`headerTimeZone`): the standard wants UTC.
 */
import { DateTime } from 'luxon';
import type { TrainConfig } from '../config/index.js';
import { interval, type Warning } from '../model/index.js';
import type { TrainFrame } from './assign-trains.js';

/** Reads the headers' times of such trains as wall-clock times of the zone named. */
export function readHeadersInZone(
  frames: readonly TrainFrame[],
  trains: readonly TrainConfig[],
): { frames: TrainFrame[]; warnings: Warning[] } {
  const zones = new Map(
    trains.flatMap((t) => (t.headerTimeZone === undefined ? [] : [[t.id, t.headerTimeZone] as const])),
  );
  if (zones.size === 0) return { frames: [...frames], warnings: [] };
  let inFold = 0;
  let example: TrainFrame | undefined;
  const moved = frames.map((frame) => {
    const zone = zones.get(frame.train);
    if (zone === undefined || !frame.exposure) return frame;
    const local = DateTime.fromMillis(frame.exposure.startMs, { zone: 'utc' }).setZone(zone, { keepLocalTime: true });
    if (local.getPossibleOffsets().length > 1) {
      inFold++;
      example ??= frame;
    }
    const shiftMs = local.toMillis() - frame.exposure.startMs;
    return { ...frame, exposure: interval(frame.exposure.startMs + shiftMs, frame.exposure.endMs + shiftMs) };
  });
  const warnings: Warning[] = example
    ? [
        {
          code: 'header-time-ambiguous',
          message:
            `${inFold} header${inFold === 1 ? '' : 's'} in local time fall${inFold === 1 ? 's' : ''} ` +
            'into the hour that the change of clocks repeats; the first passage was taken',
          source: { file: example.file, card: 'DATE-OBS' },
          count: inFold,
        },
      ]
    : [];
  return { frames: moved, warnings };
}
