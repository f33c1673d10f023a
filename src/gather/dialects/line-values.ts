import type { When } from './compiled.js';
import type { Lookup } from './formula.js';
import type { Captures, Pattern } from './pattern/pattern.js';
import type { RowSource } from './rows.js';

const NONE: ReadonlyMap<string, string> = new Map();
const NO_GROUPS: ReadonlyMap<string, number> = new Map();

/**
 * The values that formulas and templates can look up for a line: captures of its pattern, else the cells of its row,
 * else the constants. Reused from line to line.
 */
export class LineValues {
  readonly constants = new Map<string, string | number>();
  private captures: Captures = [];
  private groups = NO_GROUPS;
  private cellCaptures = NONE;
  private row: RowSource | null = null;

  readonly lookup: Lookup = (name) =>
    this.captured(name) ?? this.cellCaptures.get(name) ?? this.row?.cell(name) ?? this.constants.get(name);

  /** Set after a pattern matched the whole line. */
  useText(pattern: Pattern, captures: Captures): void {
    this.captures = captures;
    this.groups = pattern.groups;
    this.cellCaptures = NONE;
    this.row = null;
  }

  /** Set for a row. */
  useRow(row: RowSource): void {
    this.captures = [];
    this.groups = NO_GROUPS;
    this.cellCaptures = NONE;
    this.row = row;
  }

  /** Whether the patterns on cells match the row; their captures can then be looked up. */
  matchCells(row: RowSource, when: When): boolean {
    if (when.kind === 'text') return false;
    const caught = new Map<string, string>();
    for (const { column, pattern } of when.cells) {
      if (!row.has(column)) return false;
      const captures = pattern.exec(row.cell(column) ?? '');
      if (captures === null) return false;
      for (const [name, group] of pattern.groups) {
        const value = captures[group];
        if (value !== undefined) caught.set(name, value);
      }
    }
    this.cellCaptures = caught;
    return true;
  }

  /** The capture of a group of the pattern on the whole line. */
  captured(name: string): string | undefined {
    const group = this.groups.get(name);
    return group === undefined ? undefined : this.captures[group];
  }
}
