/** The sky of the coming nights as a plan asks for it: half hours of darkness, and each target in them. */
import { DEFAULT_DARK_SKY_MAG_ARCSEC2 } from './config/index.js';
import {
  broadMoonDistanceDeg,
  durationMs,
  interval,
  isNarrowband,
  itemAt,
  midpointMs,
  narrowMoonDistanceDeg,
  TWILIGHTS,
  type GoalsBook,
  type Interval,
  type SkyPosition,
} from './model/index.js';
import { SKY_MODEL } from './sky-model.js';
import type { NightToPlan, SkyBar, Slot, TargetInSlot } from './plan/index.js';
import type { Place, SkyObserver } from './sky/index.js';
import { clearTransparency, relativeSky, V_WAVELENGTH_NM } from './worth/sky-model.js';

const SLOT_MS = 30 * 60_000;
/** The rest of a night shorter than this is left. */
const LEAST_SLOT_MS = 10 * 60_000;
/**
 * Brightening by the Moon up to which broadband is taken, magnitudes per square arcsecond. Common practice, no source.
 */
export const BROADBAND_MOON_MAG = 0.2;

/** One night. @param dark `null` if it does not get dark */
export function nightToPlan(
  date: string,
  dark: Interval | null,
  places: readonly Place[],
  observer: SkyObserver,
  elevationM: number,
  book: GoalsBook,
): NightToPlan {
  const spans: Interval[] = [];
  for (let atMs = dark?.startMs ?? 0; dark !== null && dark.endMs - atMs >= LEAST_SLOT_MS; atMs += SLOT_MS)
    spans.push(interval(atMs, Math.min(atMs + SLOT_MS, dark.endMs)));
  // All places at an instant before the next one: Sun and Moon are the same for each.
  const above = (atMs: number): SkyPosition[] => places.map((place) => observer.position(place, atMs));
  let endOfLast: SkyPosition[] | undefined;
  const slots = spans.map((span): Slot => {
    const middleMs = midpointMs(span);
    // Slots follow each other.
    const begins = endOfLast ?? above(span.startMs);
    const middles = above(middleMs);
    const moonAltitudeDeg = observer.at(middleMs).moon.altitudeDeg;
    const ends = (endOfLast = above(span.endMs));
    const through = places.map((_, i) => [itemAt(begins, i), itemAt(middles, i), itemAt(ends, i)] as const);
    return { span, moonAltitudeDeg, targets: through.map((at) => targetInSlot(at, span, elevationM, book)) };
  });
  const middle = dark === null ? Date.parse(`${date}T23:59:00Z`) : midpointMs(dark);
  return { date, moonIllumination: observer.at(middle).moonPhase.illumination, slots };
}

/** @param through positions of the target at the slot's begin, middle and end */
function targetInSlot(
  through: readonly [SkyPosition, SkyPosition, SkyPosition],
  span: Interval,
  elevationM: number,
  book: GoalsBook,
): TargetInSlot {
  const [begin, middle, end] = through;
  const known = new Map<string, Worth>();
  const worthAt = (filter: string): Worth => {
    const own = known.get(filter) ?? worthOf(filter, middle, through, elevationM, book);
    known.set(filter, own);
    return own;
  };
  const isUp = through.every((at) => at.altitudeDeg > at.limitDeg);
  return {
    isUp,
    altitudeDeg: { begin: begin.altitudeDeg, end: end.altitudeDeg },
    moonSeparationDeg: middle.moonSeparationDeg,
    transitMs: isUp ? transit(begin, end, span) : null,
    worth: (filter) => worthAt(filter).worth,
    moonless: (filter) => worthAt(filter).moonless,
    bar: (filter) => worthAt(filter).bar,
  };
}

/**
 * Upper transit: the target passes from east to west. The sine of its azimuth is a straight line over so short a time.
 */
function transit(begin: SkyPosition, end: SkyPosition, span: Interval): number | null {
  const [east, west] = [begin, end].map(({ azimuthDeg }) => Math.sin((azimuthDeg * Math.PI) / 180));
  if (east === undefined || west === undefined || !(east > 0 && west <= 0)) return null;
  return Math.round(span.startMs + (durationMs(span) * east) / (east - west));
}

interface Worth {
  readonly worth: number;
  readonly moonless: number;
  readonly bar: SkyBar | null;
}

/** The value of an hour relative to one under a dark, clear zenith; 0 if Moon or twilight prevent the filter. */
function worthOf(
  filter: string,
  at: SkyPosition,
  through: readonly SkyPosition[],
  elevationM: number,
  { narrowband }: GoalsBook,
): Worth {
  const wavelengthNm = SKY_MODEL.wavelengthNm(filter) ?? V_WAVELENGTH_NM;
  const k = SKY_MODEL.extinction(wavelengthNm, elevationM) ?? SKY_MODEL.extinction(V_WAVELENGTH_NM, elevationM) ?? 0;
  const sky = relativeSky(SKY_MODEL, k, DEFAULT_DARK_SKY_MAG_ARCSEC2)(at);
  if (!sky || at.airmass === null) return { worth: 0, moonless: 0, bar: null };
  const isNarrow = isNarrowband(filter, narrowband);
  const bar =
    !isNarrow && at.sunAltitudeDeg >= TWILIGHTS.astronomical.sunAltitudeDeg
      ? 'twilight'
      : through.some((one) => isNearMoon(one, isNarrow, filter)) ||
          (!isNarrow && sky.moonBrighteningMag > BROADBAND_MOON_MAG)
        ? 'moon'
        : null;
  const clear = clearTransparency(k, at.airmass) ** 2;
  const moonless = bar === 'twilight' ? 0 : Math.min(1, clear / (sky.dark + sky.twilight));
  return { worth: bar === null ? Math.min(1, clear / (sky.dark + sky.moon + sky.twilight)) : 0, moonless, bar };
}

/** By the distances that the report holds the frames to. */
function isNearMoon(at: SkyPosition, isNarrow: boolean, filter: string): boolean {
  if (at.moonAltitudeDeg <= 0) return false;
  const { moonIllumination: lit } = at;
  return at.moonSeparationDeg < (isNarrow ? narrowMoonDistanceDeg(filter, lit) : broadMoonDistanceDeg(lit));
}
