import type { CsvRules } from './compiled.js';
import { type CellPart, CsvRows } from './csv-rows.js';
import type { RowSource } from './rows.js';

/** What rules can query about a row where a log has several tables: the name of its table. */
export const TABLE = 'table';

/** The tables of a log in sequence, each with its own columns. */
export class CsvTables implements RowSource {
  readonly timeInCells = true;
  private readonly tables: readonly CsvRows[];
  /** The order in which header rows are tried: more named columns are more specific. */
  private readonly byNames: readonly number[];
  /** Where a heading has identified the next table. */
  private announced: number | null = null;
  private current: number | null;

  /** @param onTable called when another table begins */
  constructor(
    private readonly rules: readonly CsvRules[],
    carries: boolean,
    private readonly onTable: () => void,
  ) {
    this.tables = rules.map((table) => new CsvRows(table, carries));
    const names = rules.map(({ header }) => header?.length ?? 0);
    this.byNames = [...rules.keys()].sort((a, b) => (names[b] ?? 0) - (names[a] ?? 0));
    const [first] = rules;
    this.current = first?.header === null && first.below === null && first.rows === null ? 0 : null;
  }

  /** Index of the table of the last row, `null` before the first. */
  get index(): number | null {
    return this.current;
  }

  /** Whether the line is the heading of a table. */
  takeHeading(text: string): boolean {
    const below = this.rules.findIndex((table) => table.below?.test(text) === true);
    if (below < 0) return false;
    this.announced = below;
    if (this.rules[below]?.header === null) this.begin(below);
    return true;
  }

  takeHeader(text: string): boolean {
    const order = this.announced === null ? this.byNames : [this.announced, ...this.byNames];
    const first = order.find((i) => this.tables[i]?.takeHeader(text) === true);
    const found = first === undefined || first === this.announced ? first : this.unannounced(first, text);
    if (found === undefined) return false;
    this.begin(found);
    return true;
  }

  takeRow(text: string): boolean {
    // Rows of several types take turns on one clock: none of them begins a table.
    const own = this.rules.findIndex(({ rows }) => rows?.test(text) === true);
    if (own >= 0) this.current = own;
    else if (this.current !== null && this.rules[this.current]?.rows !== null) return false;
    return this.row?.takeRow(text) === true;
  }

  has(column: string): boolean {
    return column === TABLE ? this.current !== null : this.row?.has(column) === true;
  }

  cell(column: string): string | undefined {
    const own = this.row?.cell(column);
    return own === undefined && column === TABLE && this.row?.has(TABLE) === false ? this.name : own;
  }

  parts(): readonly CellPart[] {
    return this.row?.parts() ?? [];
  }

  lookAt(part: CellPart | null): void {
    this.row?.lookAt(part);
  }

  time(): string {
    return this.row?.time() ?? '';
  }

  private get row(): CsvRows | undefined {
    return this.current === null ? undefined : this.tables[this.current];
  }

  private get name(): string | undefined {
    return this.current === null ? undefined : this.rules[this.current]?.name;
  }

  /** Of the tables with the same columns, the one that needs no heading; otherwise the current one goes on. */
  private unannounced(first: number, text: string): number {
    const columns = this.rules[first]?.header?.join('\0');
    const twins = [...this.rules.keys()].filter((i) => this.rules[i]?.header?.join('\0') === columns);
    const found = twins.find((i) => this.rules[i]?.below === null) ?? twins.find((i) => i === this.current) ?? first;
    return this.tables[found]?.takeHeader(text) === true ? found : first;
  }

  private begin(table: number): void {
    if (table !== this.current) this.onTable();
    this.current = table;
    this.announced = null;
  }
}
