/**
 * V8's inlining limit. The program runs for seconds, and by V8's own measurement a third of a report's processor time
 * is spent on optimising, on background threads that fill a second core. With a third of the default the optimised code
 * is as fast, and a report takes 4 to 8 % less.
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
