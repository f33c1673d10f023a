import type { CsvRules } from '../compiled.js';
import type { Fate } from '../dialect-reader.js';

/** What became of the rows of one of the log's tables. */
export interface TableUse {
  readonly name: string;
  /** The line of its header row, or of its first row; `null` where the log has no such table. */
  readonly firstLine: number | null;
  /** Lines from there to the next table. */
  readonly rows: number;
  /** Rows that yielded events or guiding samples, and rows that matched nothing. */
  readonly used: number;
  readonly unmatched: number;
}

/** Counts the fates of the rows of each table. */
export class TableUses {
  private readonly uses: { firstLine: number | null; rows: number; used: number; unmatched: number }[];

  constructor(private readonly tables: readonly CsvRules[]) {
    this.uses = tables.map(() => ({ firstLine: null, rows: 0, used: 0, unmatched: 0 }));
  }

  /** @param count how many lines it covers: 0 if its line was counted before */
  add(table: number, line: number, count: number, fate: Fate): void {
    const use = this.uses[table];
    if (use === undefined) return;
    use.firstLine ??= line;
    if (fate === 'context') return;
    use.rows += count;
    if (fate === 'events' || fate === 'sample') use.used += count;
    if (fate === 'unmatched') use.unmatched += count;
  }

  /** Each table in dialect order; empty if the log has only one. */
  get list(): readonly TableUse[] {
    return this.tables.length < 2 ? [] : this.uses.map((use, i) => ({ name: this.tables[i]?.name ?? '', ...use }));
  }
}
