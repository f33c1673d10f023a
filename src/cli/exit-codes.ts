/** Exit codes of the program. */
export const EXIT = {
  /** The request succeeded; warnings do not change that. */
  made: 0,
  /** The request failed; the message says why. */
  failed: 1,
  /** The command line itself was wrong. */
  usage: 2,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** The command line asks for something that makes no sense. */
export class UsageError extends Error {
  override readonly name = 'UsageError';

  /** @param more additional lines after the message: possible alternatives */
  constructor(
    message: string,
    readonly more: readonly string[] = [],
  ) {
    super(message);
  }
}
