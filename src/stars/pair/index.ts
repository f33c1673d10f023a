/** What registered frames reveal about the pair: geometry, drift, flexure, rotation, dithers. Pure functions. */
export { aimsOf, type FrameFacts, middleMs, movesSeen, runsOf } from './aim.js';
export { type AskedDither, ditherSpread, oneWayOf, SAME_PLACE_PX } from './dithers.js';
export { trainDrift } from './drift.js';
export { fieldRotation, polarErrorAtLeastArcmin, SIDEREAL_DEG_PER_HOUR } from './field-rotation.js';
export { flexureOf, HARMLESS_TRAIL_PX } from './flexure.js';
export { type FieldOfTrain, pairGeometry } from './geometry.js';
export { measuredSettling } from './settling.js';
