/**
 * Lights of many past nights, found in one tree: which of them count, and at which site they were taken.
 */
import type { Rig } from '../config/index.js';
import { groupBy, siteKeys, type HeaderFrame, type Warning } from '../model/index.js';
import { inferRig } from './infer-rig.js';
import { withRightAscensions } from './right-ascensions.js';
import { placedByHeaders } from './target-places.js';
import { withSeconds } from './milliseconds.js';
import { withOneZone } from './mixed-zones.js';

/** Digital cameras on telescopes are younger than this; an earlier date is a clock that was never set. */
const EARLIEST_MS = Date.UTC(1990, 0, 1);
/** Zones reach this far from UTC, and clocks are wrong by less than the rest of it. */
const AHEAD_MS = 86_400_000;

/** Lights that count, and notices about the others. */
export interface PastLights {
  readonly lights: readonly HeaderFrame[];
  /** Files that are copies of others, by their headers. */
  readonly copies: number;
  readonly warnings: readonly Warning[];
}

/** Drops copies, whatever their names, and lights with impossible dates. */
export function pastLights(frames: readonly HeaderFrame[], nowMs: number): PastLights {
  const all = frames.filter((f) => f.kind === 'light');
  const distinct = [...groupBy(all, (f) => f.headerHash).values()].flatMap((same) => same.slice(0, 1));
  const isPlausible = ({ exposure }: HeaderFrame): boolean =>
    exposure !== undefined && exposure.startMs >= EARLIEST_MS && exposure.startMs <= nowMs + AHEAD_MS;
  const bad = distinct.filter((f) => !isPlausible(f));
  const timed = withSeconds(distinct.filter(isPlausible));
  const zoned = withOneZone(timed.frames);
  return {
    lights: zoned.frames,
    copies: all.length - distinct.length,
    warnings: [...implausible(bad), ...timed.warnings, ...zoned.warnings],
  };
}

function implausible(bad: readonly HeaderFrame[]): Warning[] {
  const [first] = bad;
  if (!first) return [];
  const which = bad.length === 1 ? `${first.file} has` : `${bad.length} lights (${first.file}, …) have`;
  return [
    {
      code: 'implausible-date',
      message:
        `${which} no date, or one before 1990 or in the future, and ` +
        `${bad.length === 1 ? 'belongs' : 'belong'} to no night; set the capture computer's clock right`,
      source: { file: first.file },
      count: bad.length,
    },
  ];
}

/** Lights of one site, and the rig they were taken with. */
export interface SiteLights {
  readonly rig: Rig;
  readonly lights: readonly HeaderFrame[];
}

/**
 * Groups lights by the site in their headers; those without one go with the rig's site, or else with most of the
 * others.
 *
 * @param rig what is known about trains and site; `null` to derive both from the headers
 */
export function lightsBySite(lights: readonly HeaderFrame[], rig: Rig | null): SiteLights[] {
  const [homeKey = null, ...keys] = siteKeys([rig?.site ?? null, ...lights.map(({ site }) => site ?? null)]);
  const counts = [...groupBy(keys, (key) => key)]
    .filter(([key]) => key !== null)
    .sort(([, a], [, b]) => b.length - a.length);
  const usual = homeKey ?? counts[0]?.[0] ?? null;
  const groups = groupBy(
    lights.map((light, i) => ({ light, key: keys[i] ?? usual })),
    ({ key }) => key,
  );
  return [...groups].map(([key, members]) => {
    const own = members.map(({ light }) => light);
    if (rig === null) return { rig: inferRig(own), lights: own };
    // Away from the rig file's site the trains are the same, and the place is the headers'.
    const { rig: placed } = placedByHeaders(withRightAscensions(rig, own).rig, own);
    return { rig: key === homeKey ? placed : { ...placed, site: inferRig(own).site ?? rig.site }, lights: own };
  });
}
