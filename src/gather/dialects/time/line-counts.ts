import type { CountTurns } from './count-turns.js';
import { newStamp, StampPattern } from './stamp.js';

/** The counts before lines, as written. */
export class LineCounts {
  /** The patterns of counts without the text around them. */
  private readonly patterns: readonly StampPattern[];
  private readonly stamp = newStamp();
  private last = { line: 0, ms: NaN };

  constructor(
    elapsed: readonly StampPattern[],
    private readonly turns: CountTurns,
  ) {
    this.patterns = elapsed.flatMap(({ source }) =>
      (/\{elapsed[^}]*\}/.exec(source) ?? []).map((count) => new StampPattern(count)),
    );
  }

  keep(line: number, ms: number): void {
    this.last = { line, ms };
  }

  /** The count before a line, ms; NaN if the line has none. */
  on(line: number): number {
    return this.last.line === line ? this.last.ms : NaN;
  }

  /** A count on its own, ms; NaN if the text is not one. */
  in(text: string): number {
    const bytes = Buffer.from(text.trim());
    return this.patterns.some((one) => one.readAt(bytes, 0, bytes.length, this.stamp))
      ? this.turns.stated(this.stamp.ms)
      : NaN;
  }
}
