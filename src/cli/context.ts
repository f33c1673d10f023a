import type { Messages, Sink } from './messages.js';
import type { WaitClock } from './wait.js';

/** A run's environment: the process's own, or a test's. */
export interface Surroundings {
  /** Takes results and nothing else, so that pipes stay clean. */
  readonly stdout: Sink;
  readonly stderr: Sink;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The present, UTC ms. */
  readonly nowMs: number;
  /** What `report --wait` passes the time by; the system's clock when absent. */
  readonly waitClock?: WaitClock;
  /** Asks for an interruption to be reported once instead of ending the program; returns what takes that back. */
  readonly onInterrupt?: (onSignal: () => void) => () => void;
  /** Returns memory immediately; only for a process that belongs to the program. */
  readonly sweepAway?: () => void;
}

/** What every command is given. */
export interface Context {
  readonly messages: (options: { quiet?: boolean }) => Messages;
  /** Writes a requested answer even when quiet: a draft, a table, JSON. */
  readonly answer: (text: string) => void;
  /** Width of the terminal for answers, characters; absent if they go elsewhere. */
  readonly columns?: number;
  /** The present, UTC ms. */
  readonly nowMs: number;
  readonly waitClock?: WaitClock;
  readonly env: Surroundings['env'];
  readonly onInterrupt: NonNullable<Surroundings['onInterrupt']>;
  readonly sweepAway: NonNullable<Surroundings['sweepAway']>;
  readonly version: string;
}
