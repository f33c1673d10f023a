/**
 * The least of so many largest values: what is below it need not be sorted. −∞ where there are no more than these.
 *
 * @param of gives no NaN
 */
export function leastOfLargest<T>(items: readonly T[], many: number, of: (item: T) => number): number {
  if (items.length <= many) return -Infinity;
  const values = new Float64Array(items.length);
  for (let i = 0; i < values.length; i++) values[i] = of(items[i]!);
  return values.sort()[items.length - many]!;
}

/** The so many largest of the items that are added, and those that are as large as the least of them. */
export class Largest<T> {
  private items: T[] = [];
  /** What is less is none of the largest. */
  private least = -Infinity;
  private mostItems: number;

  /** @param of gives no NaN */
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

  /** The largest first; of those as large, what was added first. */
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
