import type { Messages } from './messages.js';

/** What every command is given. */
export interface Context {
  readonly messages: (options: { quiet?: boolean }) => Messages;
  /** The present, UTC ms; the only place that reads the clock. */
  readonly nowMs: number;
  readonly version: string;
}
