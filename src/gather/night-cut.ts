/**
 * Where nights are split without a site: at noon by the headers' own local time, else at the middle of the longest
 * daily pause; if no pause is conclusive (calibration by day, many nights in one folder) at solar noon from fields and
 * dates of the lights.
 */
import { DateTime } from 'luxon';
import {
  hoursFromSun,
  median,
  midpointMs,
  zoneByPause,
  zoneBySky,
  type HeaderFrame,
  type Site,
  type Warning,
} from '../model/index.js';

/**
 * A zone farther from the Sun's time than this contradicts its longitude, hours: no zone in use is. Common practice, no
 * source.
 */
const CONTRADICTION_HOURS = 3;
/** A shorter daily pause may be any pause and does not determine nights, ms. Common practice, no source. */
const TELLING_PAUSE_MS = 6 * 3_600_000;

/** The facts of a frame that determine where nights end. */
export type CutFrame = Pick<HeaderFrame, 'localOffsetMinutes' | 'pointing' | 'exposure'>;

/** The zone for splitting nights, with notices; `null` if the site's own zone is used. */
export function nightCut(
  site: Site | null,
  instantsMs: readonly number[],
  frames: readonly CutFrame[] = [],
): { readonly zone: string; readonly warning: Warning } | null {
  const contradiction = site ? contradictionOf(site, instantsMs) : null;
  if (site && contradiction === null) return null;
  const local = localZone(frames);
  if (local !== null && contradiction === null) {
    return {
      zone: local,
      warning: {
        code: 'night-cut-by-local-time',
        message:
          `no coordinates in headers or rig file: nights are cut at noon of ${local}, the headers' own local ` +
          'time (DATE-LOC)',
      },
    };
  }
  const cut = zoneByPause(instantsMs);
  if (!cut) return null;
  const bySky = cut.pauseMs < TELLING_PAUSE_MS ? zoneBySky(pointedLights(frames)) : null;
  if (bySky !== null) {
    const how =
      `no pause is long enough to say where a night ends (${(cut.pauseMs / 3_600_000).toFixed(1)} h), so that ` +
      `nights are cut at noon of ${bySky}, by which the Sun was down and the fields were high, by coordinates ` +
      'and dates of the lights';
    return {
      zone: bySky,
      warning:
        contradiction === null
          ? { code: 'night-cut-by-sky', message: `no site in headers or rig file: ${how}` }
          : { code: 'zone-contradicts-longitude', message: `${contradiction}; ${how}` },
    };
  }
  const at = new Date(cut.noonMs).toISOString().slice(11, 16);
  const how = `nights are cut at ${at} UTC, in the longest pause (${(cut.pauseMs / 3_600_000).toFixed(1)} h)`;
  return {
    zone: cut.zone,
    warning:
      contradiction === null
        ? { code: 'night-cut-by-pause', message: `no coordinates in headers or rig file: ${how}` }
        : { code: 'zone-contradicts-longitude', message: `${contradiction}; ${how}` },
  };
}

function pointedLights(frames: readonly CutFrame[]) {
  return frames.flatMap(({ pointing, exposure }) =>
    pointing === undefined || exposure === undefined ? [] : [{ raDeg: pointing.raDeg, atMs: midpointMs(exposure) }],
  );
}

/** The zone of the local times that most headers state, `UTC+5:30`; `null` where most state none. */
function localZone(frames: readonly CutFrame[]): string | null {
  const offsets = frames.flatMap(({ localOffsetMinutes: m }) => (m === undefined ? [] : [m]));
  if (offsets.length === 0 || offsets.length < frames.length / 2) return null;
  const minutes = Math.round(median(offsets));
  const size = Math.abs(minutes);
  const rest = size % 60;
  if (minutes === 0) return 'UTC';
  const minutesPart = rest === 0 ? '' : `:${String(rest).padStart(2, '0')}`;
  return `UTC${minutes < 0 ? '-' : '+'}${Math.floor(size / 60)}${minutesPart}`;
}

function contradictionOf({ timezone, longitudeDeg }: Site, instantsMs: readonly number[]): string | null {
  const [atMs] = instantsMs;
  if (atMs === undefined) return null;
  const local = DateTime.fromMillis(atMs, { zone: timezone });
  if (!local.isValid || hoursFromSun(local.offset, longitudeDeg) <= CONTRADICTION_HOURS) return null;
  return (
    `the site's time zone ${timezone} does not fit its longitude ${longitudeDeg.toFixed(1)}° (east is ` +
    'positive): check both in the rig file'
  );
}
