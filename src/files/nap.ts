/** Holds the whole thread up, for what must not be left half done: a folder put in place, a program that ends. */
export function nap(ms: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}
