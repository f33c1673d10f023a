import type { WarningTally } from '../../lines/warning-tally.js';
import type { Zone } from './zone.js';

/**
 * Lines of one log may be this far out of order without the clock having been set back: lines written from a buffer,
 * rows stamped by their begin. The clock goes back by an hour minus the interval between two lines.
 */
const OUT_OF_ORDER_MS = 30 * 60_000;
/** Maximum delay of a first-pass line among those of the second. */
const LATE_MS = 10_000;
/** A reading this far ahead of the next is not an instant that the log has reached. */
const FAR_AHEAD_MS = 12 * 3_600_000;

/** Converts readings of a zone's clock to instants, in log order: a backward step is the repeated hour. */
export class WallClock {
  private firstRepeatedLine = 0;
  private repeatedReadings = 0;
  private sawStepBack = false;
  private isInSecond = false;
  /** The latest instant that the log has reached, UTC ms. */
  private furthestMs = NaN;
  private lastWasRepeated = false;

  constructor(
    private readonly zone: Zone,
    private readonly tally: WarningTally,
  ) {}

  /**
   * @param wallMs the reading as if it were UTC, ms
   * @param lastMs the instant of the previous reading, UTC ms
   * @param pass of an hour that occurs twice, as the log states it; 0 if it does not
   * @returns UTC ms
   */
  instant(wallMs: number, lastMs: number, line: number, pass: 0 | 1 | 2 = 0): number {
    const { firstMs, secondMs, skipped } = this.zone.instants(wallMs);
    if (skipped) {
      this.tally.add(
        'skipped-hour',
        line,
        () =>
          `Line ${line}: clocks in ${this.zone.name} skip this time; it was read ` +
          'as if they did not. Check "zone" in the dialect.',
      );
    }
    if (firstMs === secondMs) {
      this.lastWasRepeated = false;
      this.isInSecond = false;
      return firstMs;
    }
    if (pass !== 0) return pass === 1 ? firstMs : secondMs;
    this.repeatedReadings++;
    if (this.firstRepeatedLine === 0) this.firstRepeatedLine = line;
    // `Math.max` would keep NaN.
    if (!(lastMs <= this.furthestMs) || this.furthestMs - firstMs > FAR_AHEAD_MS) this.furthestMs = lastMs;
    const isSecond = firstMs <= this.furthestMs - (this.isInSecond ? LATE_MS : OUT_OF_ORDER_MS);
    if (isSecond) this.isInSecond = true;
    if (isSecond && this.lastWasRepeated) this.sawStepBack = true;
    this.lastWasRepeated = true;
    return isSecond ? secondMs : firstMs;
  }

  /** Of two possible instants of a reading the one closer to another: for additional times in a line. */
  nearest(wallMs: number, nearMs: number): number {
    const { firstMs, secondMs } = this.zone.instants(wallMs);
    return Math.abs(secondMs - nearMs) < Math.abs(firstMs - nearMs) ? secondMs : firstMs;
  }

  /** Later readings are of the whole night again. */
  startAnew(): void {
    this.isInSecond = false;
    this.lastWasRepeated = false;
    this.furthestMs = NaN;
  }

  /** Reports remaining ambiguities. Call once, at the end. */
  finish(): void {
    if (this.repeatedReadings > 0 && !this.sawStepBack) {
      this.tally.add(
        'repeated-hour',
        this.firstRepeatedLine,
        () =>
          `From line ${this.firstRepeatedLine} on, ${this.repeatedReadings} times fall into the hour ` +
          'that the end of summer time repeats, and the log never steps back; they were read as its ' +
          'first pass. Compare with the frames.',
      );
    }
  }
}
