/**
 * The smallest of the n largest values: anything below it need not be sorted. −∞ if there are no more than n.
 *
 * @param of never returns NaN
 */
export function leastOfLargest<T>(items: readonly T[], many: number, of: (item: T) => number): number {
  if (items.length <= many) return -Infinity;
  const values = new Float64Array(items.length);
  for (let i = 0; i < values.length; i++) values[i] = of(items[i]!);
  return values.sort()[items.length - many]!;
}

/** The n largest of the items added, including ties with the smallest of them. */
export class Largest<T> {
  private items: T[] = [];
  /** What is less is none of the largest. */
  private least = -Infinity;
  private mostItems: number;

  /** @param of never returns NaN */
  constructor(
    private readonly many: number,
    private readonly of: (item: T) => number,
  ) {
    this.mostItems = 4 * many;
  }

  /** Whether an item of this size may be one of the largest. */
  mayHold(size: number): boolean {
    return size >= this.least;
  }

  add(item: T): void {
    this.items.push(item);
    if (this.items.length < this.mostItems) return;
    this.shrink();
    // Many may be as large as the least.
    this.mostItems = Math.max(4 * this.many, 2 * this.items.length);
  }

  /** Largest first; ties in order of insertion. */
  sorted(): T[] {
    this.shrink();
    return this.items.sort((a, b) => this.of(b) - this.of(a));
  }

  private shrink(): void {
    const least = leastOfLargest(this.items, this.many, this.of);
    if (least === -Infinity) return;
    this.least = least;
    this.items = this.items.filter((item) => this.of(item) >= least);
  }
}
