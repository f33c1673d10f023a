import { SOON_MS } from './beside.js';

const IN_EXPOSURE = 0.5;
const OUTSIDE = -0.6;

interface Lost {
  readonly kind: number;
  readonly atMs: number;
  readonly isLost: boolean;
}

/**
 * Lost stars in a log whose exposures are logged at their end: a loss is logged before the exposure in which it was, or
 * after it where its row states both ends and the exposure broke off meanwhile.
 */
export class LostStars {
  private waiting: Lost[] = [];
  private readonly openedMs: Float64Array;
  private readonly closedMs: Float64Array;

  constructor(
    trains: number,
    private readonly add: (kind: number, fit: number) => void,
  ) {
    this.openedMs = new Float64Array(trains).fill(NaN);
    this.closedMs = new Float64Array(trains).fill(NaN);
  }

  get areWaiting(): boolean {
    return this.waiting.length > 0;
  }

  /** A star was lost, or found if not `isLost`. @param atMs when the loss began, if its row says so */
  noted(kind: number, atMs: number, isLost: boolean): void {
    const isIn = this.openedMs.some((ms, train) => ms < atMs && atMs < (this.closedMs[train] ?? NaN));
    if (isIn) this.add(kind, IN_EXPOSURE);
    else this.waiting.push({ kind, atMs, isLost });
  }

  /** What was logged next: an exposure open since then, an abort, or something else. */
  followed(by: 'exposure' | 'abort' | 'other', fromMs: number, atMs: number): void {
    for (const star of this.waiting) {
      const isIn = by === 'exposure' && star.atMs > fromMs;
      // An abort when the star is lost does not say how long the exposure was: no evidence either way.
      const isAborted = by === 'abort' && star.isLost && atMs - star.atMs < SOON_MS;
      this.add(star.kind, isIn ? IN_EXPOSURE : isAborted ? 0 : OUTSIDE);
    }
    this.waiting = [];
  }

  exposed(train: number, fromMs: number, atMs: number): void {
    this.openedMs[train] = fromMs;
    this.closedMs[train] = atMs;
  }
}
