/** Signals that ask a program to end, and their numbers (POSIX.1, `kill`). */
const SIGNALS = [
  ['SIGHUP', 1],
  ['SIGINT', 2],
  ['SIGTERM', 15],
] as const;

const cleanups = new Set<() => void>();
let letGo: (() => void) | undefined;

/**
 * Registers cleanup in case the program is asked to end before it is done: a browser closed, a half-written folder
 * removed. The program then exits with 128 + the signal's number, as is usual in shells. While nothing is registered
 * signals end the program immediately.
 *
 * @param cleanup synchronous, and quick
 * @returns takes the registration back; the clean-up is then the caller's own
 */
export function onStop(cleanup: () => void): () => void {
  cleanups.add(cleanup);
  letGo ??= listen();
  return () => {
    cleanups.delete(cleanup);
    if (cleanups.size > 0) return;
    letGo?.();
    letGo = undefined;
  };
}

function listen(): () => void {
  const listeners = SIGNALS.map(([signal, number]) => {
    const end = (): never => process.exit(128 + number);
    process.once(signal, end);
    return () => process.off(signal, end);
  });
  process.once('exit', cleanAll);
  return () => {
    for (const remove of listeners) remove();
    process.off('exit', cleanAll);
  };
}

function cleanAll(): void {
  for (const cleanup of cleanups) {
    try {
      cleanup();
    } catch {
      // One that fails must not keep the others.
    }
  }
}
