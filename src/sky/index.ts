/** Sun, Moon, target, darkness and moonlight: the only user of the ephemeris. */
export * from './airmass.js';
export * from './curves.js';
export * from './darkness.js';
export * from './extinction.js';
export * from './horizon.js';
export * from './impossible-light.js';
export type { Direction, MoonPhase, MoonPlace, SkyMoment } from './moment.js';
export * from './moonlight.js';
export * from './night-sky.js';
export * from './night-span.js';
export { makeSkyObserver, skyPosition } from './position.js';
export type { Place, SkyObserver } from './position.js';
export * from './refraction.js';
export * from './sky-night.js';
export { twilightNanoLamberts } from './twilight.js';
