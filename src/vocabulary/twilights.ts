import { listed } from './phrases.js';
import { keysOf } from './table.js';

/**
 * The twilights, by the true altitude of the Sun's centre that ends them in the evening, degrees, without refraction
 * (*Explanatory Supplement to the Astronomical Almanac*).
 */
export const TWILIGHTS = {
  civil: { sunAltitudeDeg: -6, dusk: 'Civil dusk', dawn: 'Civil dawn' },
  nautical: { sunAltitudeDeg: -12, dusk: 'Nautical dusk', dawn: 'Nautical dawn' },
  astronomical: { sunAltitudeDeg: -18, dusk: 'Astronomical dusk', dawn: 'Astronomical dawn' },
} as const satisfies Readonly<
  Record<string, { readonly sunAltitudeDeg: number; readonly dusk: string; readonly dawn: string }>
>;

/** A twilight that can bound the night's darkness. */
export type DarknessKind = keyof typeof TWILIGHTS;
/** From the lightest on. */
export const DARKNESS_KINDS = keysOf(TWILIGHTS);
/** The bound of the night unless the rig file states another. */
export const DEFAULT_DARKNESS: DarknessKind = 'nautical';

/**
 * True altitude of the Sun's centre at sunset, degrees: its upper limb on a level horizon at sea level, seen through
 * 34′ of refraction (34′ + 16′; same source).
 */
export const SUNSET_ALTITUDE_DEG = -50 / 60;

/** `−6° (civil), −12° (nautical) or −18° (astronomical)`. */
export function twilightLimits(): string {
  return listed(
    DARKNESS_KINDS.map((kind) => `−${-TWILIGHTS[kind].sunAltitudeDeg}° (${kind})`),
    'or',
  );
}

/** The bound of a night's window: a twilight, or its substitute if it does not come; each with its label. */
export const WINDOWS = {
  civil: 'civil',
  nautical: 'nautical',
  astronomical: 'astronomical',
  sunset: 'sunset to sunrise',
  'sun-minimum': 'Sun’s lowest',
} as const satisfies Readonly<Record<DarknessKind | 'sunset' | 'sun-minimum', string>>;

export type WindowKind = keyof typeof WINDOWS;
export const WINDOW_KINDS = keysOf(WINDOWS);
