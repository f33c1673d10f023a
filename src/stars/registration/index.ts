/**
 * Registration of frames to the reference of their field, and of trains to one another. Pure functions on star lists.
 */
export { clipToSensor, cornersOf, polygonArea, sharedField } from './field-overlap.js';
export { type FrameToRegister, registerFrames } from './frames.js';
export { type CameraTurn, cameraTurns, halfTurn } from './motion.js';
export { seenFixed } from './seen-fixed.js';
export { sensorFixed } from './sensor-fixed.js';
export {
  centreOf,
  compose,
  IDENTITY,
  inverse,
  shiftOf,
  similarityOf,
  transform,
  transformDifference,
  wrapDegrees,
} from './similarity.js';
export { isAmong, type StarList, starListOf } from './star-list.js';
export { firstTrain, registerTrains, type TrainsExpected } from './trains.js';
