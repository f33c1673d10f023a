import type { StateRules } from './compiled.js';
import type { RowSource } from './rows.js';

/** What a rule can ask of a change: the column or field that has changed, and what it said before and says now. */
export const CHANGE_NAMES = ['changed', 'was', 'now'] as const;

/** A column whose cell is another than in the row above. */
interface Change {
  readonly changed: string;
  readonly was: string | undefined;
  readonly now: string | undefined;
}

/**
 * The rows of a table, or records, that state the same things each time, whatever has changed: what happens stands in
 * the difference of two. Each column that has changed is a row of its own, with `changed`, `was` and `now` beside the
 * cells of the whole. In the first row everything is new.
 */
export class StateRows implements RowSource {
  private readonly last = new Map<string, string | undefined>();
  private current: Change | null = null;

  constructor(
    private readonly rows: RowSource,
    private readonly rules: StateRules,
  ) {}

  /** Rows name a device and its state, and may as well state neither. */
  get isKeyed(): boolean {
    return 'of' in this.rules;
  }

  get timeInCells(): boolean {
    return this.rows.timeInCells;
  }

  takeHeader(text: string): boolean {
    return this.rows.takeHeader(text);
  }

  takeRow(text: string): boolean {
    this.current = null;
    return this.rows.takeRow(text);
  }

  has(name: string): boolean {
    return isChangeName(name) || this.rows.has(name);
  }

  cell(name: string): string | undefined {
    if (this.current !== null && isChangeName(name)) return this.current[name];
    return this.rows.cell(name);
  }

  time(): string {
    return this.rows.time();
  }

  /** Whether the row is of a table that states what devices do. */
  get isOfStates(): boolean {
    const { rules } = this;
    return ('of' in rules ? [rules.of, rules.state] : rules.columns).every((column) => this.rows.has(column));
  }

  /** What has changed since the row before. Call once a row. */
  changes(): Change[] {
    const { rules } = this;
    const columns = 'of' in rules ? [rules.state] : rules.columns;
    // A row with none of them is about something else.
    if (columns.every((column) => this.rows.cell(column) === undefined)) return [];
    return columns.flatMap((column): Change[] => {
      const now = this.rows.cell(column);
      const changed = 'of' in rules ? (this.rows.cell(rules.of) ?? '') : column;
      const was = this.last.get(changed);
      const isNew = !this.last.has(changed);
      this.last.set(changed, now);
      return now === was && !(isNew && now !== undefined) ? [] : [{ changed, was, now }];
    });
  }

  /** From now on the cells are those of this change; `null`: of the row as a whole. */
  lookAt(change: Change | null): void {
    this.current = change;
  }
}

function isChangeName(name: string): name is (typeof CHANGE_NAMES)[number] {
  return CHANGE_NAMES.some((one) => one === name);
}
