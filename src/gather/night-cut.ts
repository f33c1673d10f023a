/**
 * Where nights are cut when the site cannot tell: at the middle of the longest daily pause.
 */
import { DateTime } from 'luxon';
import { hoursFromSun, zoneByPause, type Site, type Warning } from '../model/index.js';

/**
 * A zone farther from the Sun's time than this contradicts its longitude, hours: no zone in use is. Common practice, no
 * source.
 */
const CONTRADICTION_HOURS = 3;

/** The zone to cut nights by, with what has to be said; `null` where the site's own zone serves. */
export function nightCut(
  site: Site | null,
  instantsMs: readonly number[],
): { readonly zone: string; readonly warning: Warning } | null {
  const contradiction = site ? contradictionOf(site, instantsMs) : null;
  if (site && contradiction === null) return null;
  const cut = zoneByPause(instantsMs);
  if (!cut) return null;
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
