import type { Night } from '../../model/index.js';

/** What an export may know in addition to the night. */
export interface FormatContext {
  /** When it is made, UTC ms. */
  readonly nowMs: number;
  readonly version: string;
  /** The night is to be shared: times count from its first exposure. */
  readonly share?: boolean;
}

/** One export: a file, a line in the registry and a test, all named after the id. */
export interface Format {
  /** Also the file's name: `summary.md`. */
  readonly id: string;
  readonly extension: string;
  /** What it is, for a list of choices. */
  readonly title: string;
  /** The file's whole content: text as UTF-8, or bytes. */
  render(night: Night, context: FormatContext): Promise<string | Uint8Array>;
}
