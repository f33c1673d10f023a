import type { StateRules } from './compiled.js';
import type { RowSource } from './rows.js';

/** What a rule can query about a change: the column or field that changed, and its previous and current value. */
export const CHANGE_NAMES = ['changed', 'was', 'now'] as const;

/** A column whose cell differs from the row above. */
interface Change {
  readonly changed: string;
  readonly was: string | undefined;
  readonly now: string | undefined;
}

/**
 * The rows of a table, or records, that always state the same things, changed or not: an event is the difference
 * between two of them. Each changed column becomes a row of its own, with `changed`, `was` and `now` in addition to the
 * cells of the whole row. In the first row everything is new.
 */
export class StateRows implements RowSource {
  private readonly last = new Map<string, string | undefined>();
  private current: Change | null = null;

  constructor(
    private readonly rows: RowSource,
    private readonly rules: StateRules,
  ) {}

  /** Rows name a device and its state, and may also state neither. */
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

  /** Whether the row belongs to a table of device states. */
  get isOfStates(): boolean {
    const { rules } = this;
    return ('of' in rules ? [rules.of, rules.state] : rules.columns).every((column) => this.rows.has(column));
  }

  /** The changes since the previous row. Call once per row. */
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
