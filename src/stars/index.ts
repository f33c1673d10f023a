/** Star measurements in the pixels of frames, and where the trains were pointed. */
export { clocksBySteps, type ClockBySteps } from './clock-by-steps.js';
export { defaultCacheFolder, MEASUREMENT_VERSION } from './cache.js';
export { cutOuts, type GreyPicture, type Pictured, type Place, stretchedAlike, wholePicture } from './cut-outs.js';
export { frameToMeasure, starsOfNight, type NightPixels } from './night.js';
export { relativeFlux } from './relative-flux.js';
export * from './types.js';
export { measureStars } from './measure-stars.js';
export { joinStars, type SessionStars } from './join-stars.js';
