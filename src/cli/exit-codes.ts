/** Exit codes of the program. */
export const EXIT = {
  /** What was asked for was made; warnings do not change that. */
  made: 0,
  /** It could not be made; the message says why. */
  failed: 1,
  /** The command line itself was wrong. */
  usage: 2,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** The command line asks for something that makes no sense. */
export class UsageError extends Error {
  override readonly name = 'UsageError';

  /** @param more lines of our own that follow the message: what could be asked for instead */
  constructor(
    message: string,
    readonly more: readonly string[] = [],
  ) {
    super(message);
  }
}
