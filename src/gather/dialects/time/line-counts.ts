import { newStamp, StampPattern } from './stamp.js';

/** The counts in front of lines, as they stand there. */
export class LineCounts {
  /** The patterns of counts without what stands around them. */
  private readonly patterns: readonly StampPattern[];
  private readonly stamp = newStamp();
  private last = { line: 0, ms: NaN };

  constructor(elapsed: readonly StampPattern[]) {
    this.patterns = elapsed.flatMap(({ source }) =>
      (/\{elapsed[^}]*\}/.exec(source) ?? []).map((count) => new StampPattern(count)),
    );
  }

  keep(line: number, ms: number): void {
    this.last = { line, ms };
  }

  /** The count in front of a line, ms; NaN where the line has none. */
  on(line: number): number {
    return this.last.line === line ? this.last.ms : NaN;
  }

  /** A count on its own, ms; NaN where the text is none. */
  in(text: string): number {
    const bytes = Buffer.from(text.trim());
    return this.patterns.some((one) => one.readAt(bytes, 0, bytes.length, this.stamp)) ? this.stamp.ms : NaN;
  }
}
