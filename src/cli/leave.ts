/** The end of the process. */

/** What stays open although nothing is left to do: the terminal or a pipe that was written to, and this very call. */
const IDLE: ReadonlySet<string> = new Set(['TTYWrap', 'PipeWrap', 'Immediate']);

/**
 * Ends the process as soon as nothing is left to do, with the exit code that is set.
 *
 * Node by itself waits until V8 has optimised, in other threads, functions that nobody will call again. On a busy
 * machine it may wait forever, for one of these threads may be waiting for the main thread to collect garbage (Node's
 * issue 54918).
 */
export function leave(): void {
  // When all is written the system takes the memory back at once: Node would free it piece by piece.
  process.on('beforeExit', () => process.exit());
  // After what is about to run already.
  setImmediate(() => {
    if (isAllDone(process.getActiveResourcesInfo(), [process.stdout, process.stderr])) process.exit();
  });
}

/**
 * Whether nothing is left to do.
 *
 * @param active the kinds of what keeps the process alive, as Node names them
 * @param outputs what was written to, perhaps faster than it was read
 */
export function isAllDone(active: readonly string[], outputs: readonly { readonly writableLength: number }[]): boolean {
  return active.every((kind) => IDLE.has(kind)) && outputs.every(({ writableLength }) => writableLength === 0);
}
