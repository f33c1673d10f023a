/** The program's terminal output. Results go to stdout, everything else to stderr, so that pipes stay clean. */
import { clipped, formatSource, increment, listed, MAX_TEXT, printable, whole } from '../model/index.js';
import type { NightWarning } from './night-warnings.js';
import { wrapped } from './wrap.js';

/** Warnings beyond this many of one code are counted, not printed; the report holds them all. */
const SHOWN_PER_CODE = 3;

/** Longest bar of a line of progress, characters. */
const BAR_WIDTH = 24;

/** Destination of text: a stream of the process, or a test's list. */
export interface Sink {
  write(text: string): unknown;
  readonly isTTY?: boolean;
  /** Width of the terminal, characters. */
  readonly columns?: number;
}

/** Where messages go. `quiet` leaves errors only. */
export class Messages {
  private progressShown = false;

  constructor(
    private readonly quiet: boolean,
    private readonly out: Sink,
    private readonly err: Sink,
  ) {}

  /** A requested result: a path, which stays on one line. */
  say(line: string): void {
    this.clearProgress();
    if (!this.quiet) this.out.write(`${printable(line)}\n`);
  }

  /** A result in a sentence, which a narrow terminal has on several lines. */
  tell(line: string): void {
    this.clearProgress();
    if (!this.quiet) this.out.write(`${wrapped(printable(line), widthOf(this.out))}\n`);
  }

  /** Why something could not be done; shown even when quiet. */
  fail(line: string): void {
    this.clearProgress();
    this.err.write(`${this.prose(line)}\n`);
  }

  /** An informational message. */
  note(line: string): void {
    this.clearProgress();
    if (!this.quiet) this.err.write(`${this.prose(line)}\n`);
  }

  /** The warnings of one or more nights, the many of one kind shortened. */
  warnings(warnings: readonly NightWarning[]): void {
    const shown = new Map<string, number>();
    const further = new Map<string, number>();
    for (const warning of warnings) {
      if (increment(shown, warning.code) > SHOWN_PER_CODE) {
        increment(further, warning.code, warning.count ?? 1);
        continue;
      }
      const where = warning.source ? `${formatSource(warning.source)}: ` : '';
      const { nights = [] } = warning;
      const of = nights.length === 0 ? '' : `${nights.length === 1 ? 'night' : 'nights'} of ${listed(nights)}: `;
      const said = warning.message.startsWith(warning.source?.file ?? '\0') ? '' : where;
      this.note(`warning: ${of}${said}${warning.message}`);
    }
    for (const [code, count] of further)
      this.note(`warning: … and ${whole(count)} more of the kind ${code}; the report lists them`);
  }

  /** A line that rewrites itself during a long operation; only on a terminal. @param note appended at its end */
  progress(label: string, done: number, total: number, note = ''): void {
    if (this.quiet || !this.err.isTTY) return;
    this.progressShown = true;
    const [before, after] = [`${printable(label)} `, ` ${done}/${total}${note}`];
    // One short of the edge: a line that reaches it would go on below, and be rewritten there instead of here.
    const room = this.err.columns === undefined ? Infinity : Math.max(0, this.err.columns - 1);
    const width = Math.max(0, Math.min(BAR_WIDTH, room - before.length - after.length));
    const filled = total > 0 ? Math.round((width * done) / total) : width;
    const line = `${before}${'━'.repeat(filled)}${'·'.repeat(width - filled)}${after}`;
    this.err.write(`\r${room === Infinity ? line : line.slice(0, room)}\x1b[K`);
    if (done >= total) this.clearProgress();
  }

  private prose(line: string): string {
    return wrapped(`nightledger: ${sentence(line)}`, widthOf(this.err));
  }

  private clearProgress(): void {
    if (!this.progressShown) return;
    this.progressShown = false;
    this.err.write('\r\x1b[2K');
  }
}

/** How wide the terminal is, characters; nothing else has a width. */
export function widthOf({ isTTY, columns }: Sink): number | undefined {
  return isTTY === true ? columns : undefined;
}

/** A sentence that quotes a file may be as long as the file. */
function sentence(line: string): string {
  return printable(clipped(line, MAX_TEXT));
}
