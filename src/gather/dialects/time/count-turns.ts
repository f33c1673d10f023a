/** A counter that begins anew at its highest value: 16 or 32 bits, the minutes of an hour. */
export class CountTurns {
  private turnsMs = 0;
  private lastMs = NaN;

  /** @param wrapsMs where it begins anew, ms; 0: nowhere */
  constructor(private readonly wrapsMs: number) {}

  /** A count that follows the last one, continued past the turn; a late line may be of the turn before. */
  next(countMs: number): number {
    if (this.wrapsMs === 0) return countMs;
    const stepMs = countMs + this.turnsMs - this.lastMs;
    if (stepMs < -this.wrapsMs / 2) this.turnsMs += this.wrapsMs;
    const isLate = stepMs > this.wrapsMs / 2 && this.turnsMs > 0;
    const atMs = countMs + this.turnsMs - (isLate ? this.wrapsMs : 0);
    if (!isLate) this.lastMs = atMs;
    return atMs;
  }

  /** A count that something else states, in the turn that is reached. */
  stated(countMs: number): number {
    return countMs + this.turnsMs;
  }

  /** The instant of a further count of a line, nearest to the line's own. @param atMs in the turn that is reached */
  near(atMs: number, lineMs: number): number {
    return this.wrapsMs === 0 ? atMs : atMs + Math.round((lineMs - atMs) / this.wrapsMs) * this.wrapsMs;
  }
}
