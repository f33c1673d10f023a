/** Frames and log lines in full daylight: a clock, a zone or a date is wrong, and often it can be determined which. */
import { groupBy, midpointMs, type Frame, type Warning } from '../model/index.js';

/** The Sun's centre above this is daylight, degrees: nobody takes lights then. */
const DAYLIGHT_DEG = -3;
/** Fewer lights than this may be tests at dusk. */
const MIN_FRAMES = 3;

/**
 * Reports trains most of whose lights are in daylight.
 *
 * @param sunAltitudeDeg the Sun's altitude at an instant
 * @param zone the site's zone and its offset from UTC that night, ms
 * @param lowestSunDeg the Sun's lowest altitude of the night: if it stays above the limit all night, light nights are a
 * property of the site and no evidence about a clock
 */
export function daylightWarnings(
  lights: readonly Frame[],
  sunAltitudeDeg: (atMs: number) => number,
  zone: { readonly name: string; readonly offsetMs: number },
  lowestSunDeg: number,
): Warning[] {
  if (lowestSunDeg > DAYLIGHT_DEG) return [];
  const warnings: Warning[] = [];
  for (const [train, own] of groupBy(lights, (f) => f.train)) {
    const middles = own.map((f) => midpointMs(f.exposure)).sort((a, b) => a - b);
    const inDaylight = middles.filter((ms) => sunAltitudeDeg(ms) > DAYLIGHT_DEG).length;
    if (inDaylight < MIN_FRAMES) continue;
    // Local time mistaken for UTC is ahead of it by the zone's offset.
    const asLocal = middles.filter((ms) => sunAltitudeDeg(ms - zone.offsetMs) > DAYLIGHT_DEG).length;
    const looksLocal = zone.offsetMs !== 0 && asLocal < inDaylight / 2;
    const byHeader = own[0]?.provenance !== 'log-only';
    warnings.push({
      code: looksLocal ? 'local-time-suspected' : 'lights-in-daylight',
      message: `${train}: ${inDaylight} of ${own.length} lights are in daylight${
        looksLocal
          ? `; read as local time (${zone.name}) ${asLocal === 0 ? 'none' : `only ${asLocal}`} would. ${
              byHeader
                ? `Its headers seem to be in local time: set headerTimeZone: ${zone.name} for the train`
                : "Its log's zone seems wrong: check the dialect's time zone"
            }; nothing was shifted`
          : `: ${wentOn(middles.map((ms) => sunAltitudeDeg(ms) > DAYLIGHT_DEG))}the date, the clock or the site’s ` +
            'longitude is wrong; check them'
      }`,
      source: own[0]?.sources[0],
      count: inDaylight,
    });
  }
  return warnings;
}

/** A plan without an end goes on into the day: the fewer lights there, all at one end, may be no more than that. */
function wentOn(inDaylight: readonly boolean[]): string {
  const many = inDaylight.filter(Boolean).length;
  if (many * 2 > inDaylight.length) return '';
  if (inDaylight.slice(-many).every(Boolean)) return 'imaging went on after dawn, or ';
  return inDaylight.slice(0, many).every(Boolean) ? 'imaging began before dusk, or ' : '';
}
