import { compileFormula, type Formula } from './formula.js';
import type { When } from './compiled.js';
import type { Pattern } from './pattern/pattern.js';
import { Problems, type Path } from './problems.js';
import { TABLE } from './csv-tables.js';
import type { DialectFile, TableFile } from './schema.js';
import { suggestion } from './schema-messages.js';
import { CHANGE_NAMES } from './state-rows.js';

/**
 * Shared context for compiling the parts of a dialect: the file, the names available to rules, and the list of
 * problems.
 */
export class CompileContext {
  readonly problems = new Problems();
  readonly comma: boolean;
  /** Names available to every rule. */
  readonly shared: readonly string[];
  /** The tables of a CSV log, empty for others. */
  readonly tables: readonly TableFile[];
  /** Of all tables. */
  readonly columns: readonly string[];

  constructor(
    readonly file: DialectFile,
    readonly lineOf: (path: Path) => number,
  ) {
    this.comma = file.decimal === ',';
    this.shared = Object.keys(file.constants);
    this.tables = Array.isArray(file.csv) ? file.csv : file.csv === undefined ? [] : [file.csv];
    this.columns = this.columnsOf(this.tables);
  }

  pattern(source: string, path: Path): Pattern | null {
    return this.problems.pattern(source, path, this.file.ignoreCase);
  }

  formula(source: string | number, path: Path, known: readonly string[]): Formula | null {
    const formula = this.problems.attempt(path, 'formula', () => compileFormula(String(source), this.comma));
    if (formula !== null) this.checkNames(formula.names, path, known);
    return formula;
  }

  when(rule: string | Record<string, string>, path: Path): When | null {
    if (typeof rule === 'string') {
      const pattern = this.pattern(rule, path);
      return pattern === null ? null : { kind: 'text', pattern };
    }
    if (this.file.csv === undefined && this.file.records === undefined)
      return this.problems.add(
        path,
        'patterns for columns need "csv", and patterns for fields "records"; without them, "when" is ' +
          'one pattern on the line',
      );
    if (this.file.csv !== undefined) {
      this.checkColumns(Object.keys(rule), path);
      const isApart = this.tablesWith(Object.keys(rule)).length === 0;
      if (isApart && Object.keys(rule).every((name) => this.columns.includes(name)))
        this.problems.add(path, `no table has all of these columns: "${Object.keys(rule).join('", "')}"`);
    }
    const cells = Object.entries(rule).flatMap(([column, source]) => {
      const pattern = this.pattern(source, [...path, column]);
      return pattern === null ? [] : [{ column, pattern }];
    });
    return cells.length === 0 ? this.problems.add(path, 'it names no column') : { kind: 'cells', cells };
  }

  namesFor(when: When): string[] {
    if (when.kind === 'text') return [...capturesOf(when), ...this.shared];
    const own = this.tablesWith(when.cells.map(({ column }) => column));
    // A missing column has already been reported.
    return [...capturesOf(when), ...this.columnsOf(own.length === 0 ? this.tables : own), ...this.shared];
  }

  /** The tables that a rule with these columns applies to. */
  private tablesWith(names: readonly string[]): readonly TableFile[] {
    return this.tables.filter((table) => names.every((name) => this.columnsOf([table]).includes(name)));
  }

  /** What rules can query about the rows of some tables. */
  private columnsOf(tables: readonly TableFile[]): string[] {
    const named = tables.flatMap(({ columns, header }) => columns ?? header ?? []);
    return [
      ...new Set([
        ...named,
        ...(this.tables.length > 1 ? [TABLE] : []),
        ...(this.file.states === undefined ? [] : CHANGE_NAMES),
      ]),
    ];
  }

  checkNames(names: ReadonlySet<string>, path: Path, known: readonly string[]): void {
    // The fields of a record are unknown until it is read.
    if (this.file.records !== undefined) return;
    for (const name of names) {
      if (!known.includes(name))
        this.problems.add(
          path,
          `"${name}" is neither captured by "when" nor a column or constant; ${suggestion(name, known)}`,
        );
    }
  }

  checkColumns(names: readonly string[], path: Path, tables = this.tables): void {
    const columns = this.columnsOf(tables);
    for (const name of names) {
      if (!columns.includes(name))
        this.problems.add(path, `there is no column "${name}"; ${suggestion(name, columns)}`);
    }
  }
}

/** The names of the groups of a condition. */
export function capturesOf(when: When): string[] {
  return when.kind === 'text'
    ? [...when.pattern.groups.keys()]
    : when.cells.flatMap(({ pattern }) => [...pattern.groups.keys()]);
}
