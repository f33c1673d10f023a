/**
 * The sky of one night, over its window and over every light.
 */
import {
  hull,
  interval,
  midpointMs,
  type DarknessKind,
  type Frame,
  type Interval,
  type NightSky,
  type Site,
  type SkyPosition,
  type Target,
} from '../model/index.js';
import { belowHorizonWarnings } from './below-horizon.js';
import { targetCurve } from './curves.js';
import { daylightWarnings } from './daylight.js';
import { nightZone, zoneOffsetMs } from './night-span.js';
import { makeSkyObserver } from './position.js';
import { skyNight } from './sky-night.js';
import { unplacedWarnings } from './unplaced.js';

export interface NightSkyInput {
  readonly span: Interval;
  readonly site: Site | null;
  /** The twilight that bounds the window. */
  readonly darkness: DarknessKind;
  /** Exposures of any kind, sorted by start. */
  readonly frames: readonly Frame[];
  /** Targets imaged. */
  readonly targets: readonly Target[];
}

/** Computes the sky of a night; without a site the window is the span of the activity, and nothing else is known. */
export function skyOver({ span, site, darkness, frames, targets }: NightSkyInput): NightSky {
  const lights = frames.filter((f) => f.kind === 'light');
  const activity = hull(lights.map((f) => f.exposure));
  if (site === null) {
    const window = activity ?? interval(span.startMs, span.startMs);
    return { window, almanac: null, positions: {}, curves: [], warnings: [] };
  }
  const observer = makeSkyObserver(site);
  const almanac = skyNight(observer, span, darkness, activity ?? undefined);
  const window = almanac.window.span;
  const places = new Map(targets.map((t) => [t.name, t]));
  const positions = new Map<string, SkyPosition>();
  for (const light of lights) {
    const target = light.target === undefined ? undefined : places.get(light.target);
    if (target) positions.set(light.id, observer.position(target, midpointMs(light.exposure)));
  }
  const zone = nightZone(site.timezone, site.longitudeDeg);
  const drawn = activity ? (hull([window, activity]) ?? window) : window;
  return {
    window,
    almanac,
    positions: Object.fromEntries(positions),
    // Curves cover the window and everything imaged outside of it.
    curves: targets.map((t) => targetCurve(observer, t, drawn, window)),
    warnings: [
      ...unplacedWarnings(lights, targets),
      ...belowHorizonWarnings(lights, positions),
      ...daylightWarnings(
        lights,
        (ms) => observer.at(ms).sun.altitudeDeg,
        { name: zone, offsetMs: zoneOffsetMs(zone, window.startMs) },
        almanac.window.sunMinimumDeg,
      ),
    ],
  };
}
