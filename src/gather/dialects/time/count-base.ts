const DAY_MS = 86_400_000;

/** The instant that relative times of a log count from. */
export class CountBase {
  /** UTC ms; NaN if undefined. */
  ms = NaN;
  /** It is a midnight, and the counter may restart at the next. */
  isMidnight = false;
  private statedMs = NaN;

  /** Sets the instant stated by a section, or by the file name. */
  set(ms: number, isMidnight: boolean): void {
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
