/** As many texts as a draft examines: each is asked about for several readings of a log. */
const KEPT = 32_000;

/** What is found in a text, kept for when the same is asked of the same text again. */
export class Remembered<T> {
  private readonly known = new Map<string, T>();

  /** @param find a pure function; what it returns must not be changed */
  constructor(private readonly find: (text: string) => T) {}

  of(text: string): T {
    const before = this.known.get(text);
    if (before !== undefined) return before;
    if (this.known.size >= KEPT) this.known.clear();
    const found = this.find(text);
    this.known.set(text, found);
    return found;
  }
}
