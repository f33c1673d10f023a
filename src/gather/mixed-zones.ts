/**
 * Headers of one camera in two zones: a second program that writes its wall clock where the standard requires UTC. One
 * computer has one zone, so that a local time (`DATE-LOC`) equal to the begin indicates a begin in local time, once
 * other headers of the night show that the computer does not use UTC.
 */
import {
  counted,
  groupByAll,
  interval,
  isDated,
  type DatedHeader,
  type HeaderFrame,
  type Warning,
} from '../model/index.js';
import { offsetText } from '../vocabulary/clock.js';
import { overlapsOf, PROVING_PAIRS } from './self-overlap.js';

/** Headers farther apart than this may belong to nights between which the computer's zone was changed, ms. */
const ONE_NIGHT_MS = 12 * 3_600_000;

/** Frames in UTC, with notices about those that were moved. */
export interface ZonedFrames {
  readonly frames: readonly HeaderFrame[];
  readonly warnings: readonly Warning[];
}

/**
 * Converts begins in local time to UTC if the frames themselves prove it: as written one camera exposes twice
 * simultaneously, and corrected it never does. Others are unchanged, with a warning.
 */
export function withOneZone(frames: readonly HeaderFrame[]): ZonedFrames {
  const moved = new Map<HeaderFrame, HeaderFrame>();
  const warnings: Warning[] = [];
  for (const own of groupByAll(frames.filter(isDated), cameraOf)) {
    const zoned = own.filter((f) => f.localOffsetMinutes !== undefined && f.localOffsetMinutes !== 0);
    if (zoned.length === 0) continue;
    const suspects = own.flatMap((f) => (f.localOffsetMinutes === 0 ? inZoneOf(f, zoned) : []));
    const [first] = suspects;
    if (!first) continue;
    const after = new Map(suspects.map(({ written, utc }) => [written, utc]));
    // Overlaps that stay are those of two cameras, and overlaps that come speak for the begins as they are written.
    if (overlapsOf(own.map((f) => after.get(f) ?? f)).length > 0) continue;
    const isProved = overlapsOf(own).length >= PROVING_PAIRS;
    if (isProved) for (const [written, utc] of after) moved.set(written, utc);
    warnings.push(isProved ? movedWarning(suspects) : doubtWarning(suspects));
  }
  return moved.size === 0 ? { frames, warnings } : { frames: frames.map((f) => moved.get(f) ?? f), warnings };
}

/** Header facts on the optics and the camera of a frame. */
export function cameraOf({ telescope, instrument, focalLengthMm }: HeaderFrame): readonly unknown[] {
  return [telescope?.toLowerCase(), instrument?.toLowerCase(), focalLengthMm];
}

interface Suspect {
  readonly written: DatedHeader;
  readonly utc: HeaderFrame;
  readonly offsetMinutes: number;
}

/** The frame as it would be if its begin were in the zone that the nearest of the others state. */
function inZoneOf(written: DatedHeader, zoned: readonly DatedHeader[]): Suspect[] {
  const apartMs = (f: DatedHeader): number => Math.abs(f.exposure.startMs - written.exposure.startMs);
  const nearest = zoned.reduce((a, b) => (apartMs(b) < apartMs(a) ? b : a));
  const offsetMinutes = nearest.localOffsetMinutes;
  if (offsetMinutes === undefined || apartMs(nearest) > ONE_NIGHT_MS) return [];
  const { startMs, endMs } = written.exposure;
  const exposure = interval(startMs - offsetMinutes * 60_000, endMs - offsetMinutes * 60_000);
  return [{ written, utc: { ...written, exposure, localOffsetMinutes: offsetMinutes }, offsetMinutes }];
}

function movedWarning(suspects: readonly Suspect[]): Warning {
  return {
    code: 'header-local-time',
    message:
      `${theyState(suspects)}. As written, one camera would have exposed twice at once: the start times were taken ` +
      'for local times and converted to UTC. Have the program that wrote them write UTC in DATE-OBS',
    source: { file: suspects[0]!.written.file, card: 'DATE-OBS' },
    count: suspects.length,
  };
}

function doubtWarning(suspects: readonly Suspect[]): Warning {
  return {
    code: 'header-zone-doubtful',
    message:
      `${theyState(suspects)}. Either may be wrong, and nothing shows which: DATE-OBS was taken for UTC. If it is ` +
      'local time, give these frames a train of their own with headerTimeZone: in the rig file',
    source: { file: suspects[0]!.written.file, card: 'DATE-OBS' },
    count: suspects.length,
  };
}

/** `24 headers (b/0001.fits, …) state the same time in DATE-OBS and DATE-LOC, while others … tell of UTC−3`. */
function theyState(suspects: readonly Suspect[]): string {
  const [first] = suspects;
  const one = suspects.length === 1;
  return (
    `${counted(suspects.length, 'header')} (${first!.written.file}${one ? '' : ', …'}) ${one ? 'states' : 'state'} ` +
    'the same time in DATE-OBS and DATE-LOC, while others of that camera and night tell of ' +
    offsetText(first!.offsetMinutes)
  );
}
