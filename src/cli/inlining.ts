/**
 * How much of what a function calls V8 takes into it when it optimizes it. The program runs for seconds, and by V8's
 * own measure a third of a report's processor time goes into optimizing, on threads beside the program that fill a
 * second core. By a third of that measure what is optimized is as fast, and a report takes 4 to 8 % less.
 */
import { setFlagsFromString } from 'node:v8';

/** Versions of V8 for which it has been measured; later ones have another compiler before this one. */
const MEASURED: readonly string[] = ['11'];

/** Bytecode that may be taken in, bytes. Measured. */
const TAKEN_IN = 300;
/** V8's own measure. */
const USUALLY = 920;

let isLess = false;

/** For the whole process, its threads included. */
export function inlineLess(): void {
  const [major = ''] = process.versions.v8.split('.');
  if (isLess || !MEASURED.includes(major)) return;
  takeIn(TAKEN_IN);
  isLess = true;
}

/** By V8's own measure again. @returns what undoes that */
export function inlineAsUsual(): () => void {
  if (!isLess) return () => {};
  takeIn(USUALLY);
  isLess = false;
  return inlineLess;
}

function takeIn(bytes: number): void {
  setFlagsFromString(`--max-inlined-bytecode-size-cumulative=${bytes}`);
}
