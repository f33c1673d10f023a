/** Accompanies advice that concerns moving parts or mains voltage. */
export const CAUTION =
  'Try it first by day or while you watch; mind cables, stops and pier. The makers’ instructions and ' +
  'your electrical code come first, and mains work is for licensed electricians.';
