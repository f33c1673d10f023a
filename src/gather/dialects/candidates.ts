import type { LineBlock } from '../lines/read-lines.js';
import { emptyHits } from './pattern/literal-scan.js';
import { LiteralSearch } from './pattern/literal-search.js';
import type { Pattern } from './pattern/pattern.js';

const NONE = emptyHits();

/**
 * Finds which patterns may match which lines of a block, with one search for the literals that the patterns require.
 * Lines that contain none of the literals need not even be decoded.
 */
export class CandidateFinder {
  /** Some pattern requires no literal: every line is a candidate. */
  readonly needsEveryLine: boolean;
  private readonly search: LiteralSearch | null;
  /** Pattern number by literal number. */
  private readonly patternOf: readonly number[];
  private readonly always: readonly number[];
  private readonly seenInLine: Int32Array;
  private visit = 0;
  private readonly found: Int32Array;
  private foundCount = 0;

  constructor(patterns: readonly Pattern[]) {
    const entries = patterns.flatMap(({ literals }, pattern) =>
      (literals ?? []).map((literal) => ({ literal, pattern })),
    );
    this.search = entries.length === 0 ? null : new LiteralSearch(entries.map(({ literal }) => literal));
    this.patternOf = entries.map(({ pattern }) => pattern);
    this.always = patterns.flatMap(({ literals }, pattern) => (literals === null ? [pattern] : []));
    this.needsEveryLine = this.always.length > 0;
    this.seenInLine = new Int32Array(patterns.length).fill(-1);
    this.found = new Int32Array(patterns.length);
  }

  /**
   * Visits lines in order with the numbers of the patterns that may match them: the first `count` entries of
   * `candidates`, ascending, valid only during the visit.
   *
   * @param everyLine also visit lines without a candidate
   */
  forEach(
    block: LineBlock,
    everyLine: boolean,
    visit: (line: number, candidates: Int32Array, count: number) => void,
  ): void {
    const { found } = this;
    const hits = this.search?.in(block) ?? NONE;
    const { ends, count } = block;
    let hit = 0;
    let line = 0;
    while (line < count) {
      if (!everyLine && !this.needsEveryLine) {
        if (hit === hits.count) return;
        const position = hits.positions[hit]!;
        while (line < count && ends[line]! < position) line++;
      }
      const end = ends[line]!;
      this.foundCount = 0;
      this.visit++;
      for (const pattern of this.always) this.add(pattern);
      for (; hit < hits.count && hits.positions[hit]! < end; hit++) this.add(this.patternOf[hits.ids[hit]!]!);
      visit(line, found, this.foundCount);
      line++;
    }
  }

  /** Adds a pattern in ascending position, once per line. */
  private add(pattern: number): void {
    if (this.seenInLine[pattern] === this.visit) return;
    this.seenInLine[pattern] = this.visit;
    const { found } = this;
    let i = this.foundCount++;
    for (; i > 0 && (found[i - 1] ?? 0) > pattern; i--) found[i] = found[i - 1] ?? 0;
    found[i] = pattern;
  }
}
