import type { StampPattern } from './stamp.js';

const DAY_MS = 86_400_000;

/** How a section states the instant that relative times count from, and whether it is that of the lines above too. */
export interface SectionBase {
  readonly base: StampPattern | null;
  readonly isAbove: boolean;
}

/** The instant that relative times of a log count from. */
export class CountBase {
  /** UTC ms; NaN if undefined. */
  ms = NaN;
  /** It is a midnight, and the counter may restart at the next. */
  isMidnight = false;
  /** The first that is that of the lines above as well; `null` as long as there is none. */
  above: CountBase | null = null;
  private statedMs = NaN;

  /** Sets the instant stated by a section, or by the file name. */
  set(ms: number, isMidnight: boolean, isOfWhole = false): void {
    if (isOfWhole && this.above === null && !Number.isNaN(ms)) {
      this.above = new CountBase();
      this.above.set(ms, isMidnight);
    }
    this.ms = ms;
    this.statedMs = ms;
    this.isMidnight = isMidnight;
  }

  /** The instant of a count. @param nowMs the previous instant, UTC ms or NaN */
  at(countMs: number, nowMs: number): number {
    if (this.isMidnight && this.ms + countMs < nowMs - DAY_MS / 2) this.ms += DAY_MS;
    return this.ms + countMs;
  }

  /** Later counts are of the whole night again. */
  startAnew(): void {
    if (this.isMidnight) this.ms = this.statedMs;
  }
}
