const DAY_MS = 86_400_000;

/** The instant that relative times of a log count from. */
export class CountBase {
  /** UTC ms; NaN where they count from nothing. */
  ms = NaN;
  /** It is a midnight, and counts may begin anew at the next. */
  isMidnight = false;
  private statedMs = NaN;

  /** Takes the instant as a section, or the file's name, states it. */
  set(ms: number, isMidnight: boolean): void {
    this.ms = ms;
    this.statedMs = ms;
    this.isMidnight = isMidnight;
  }

  /** The instant at which a count stands. @param nowMs the instant before it, UTC ms or NaN */
  at(countMs: number, nowMs: number): number {
    if (this.isMidnight && this.ms + countMs < nowMs - DAY_MS / 2) this.ms += DAY_MS;
    return this.ms + countMs;
  }

  /** The counts to come are of the whole night once more. */
  startAnew(): void {
    if (this.isMidnight) this.ms = this.statedMs;
  }
}
