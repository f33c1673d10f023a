import { compileFormula, type Formula } from './formula.js';
import type { When } from './compiled.js';
import type { Pattern } from './pattern/pattern.js';
import { Problems, type Path } from './problems.js';
import type { DialectFile } from './schema.js';
import { suggestion } from './schema-messages.js';
import { CHANGE_NAMES } from './state-rows.js';

/** What every part of a dialect is compiled with: the file, the names that rules can use, where problems are noted. */
export class CompileContext {
  readonly problems = new Problems();
  readonly comma: boolean;
  /** Names every rule can use. */
  readonly shared: readonly string[];
  readonly columns: readonly string[];

  constructor(
    readonly file: DialectFile,
    readonly lineOf: (path: Path) => number,
  ) {
    this.comma = file.decimal === ',';
    this.shared = Object.keys(file.constants);
    const columns = file.csv?.columns ?? file.csv?.header ?? [];
    this.columns = file.states === undefined ? columns : [...columns, ...CHANGE_NAMES];
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
    if (this.file.csv !== undefined) this.checkColumns(Object.keys(rule), path);
    const cells = Object.entries(rule).flatMap(([column, source]) => {
      const pattern = this.pattern(source, [...path, column]);
      return pattern === null ? [] : [{ column, pattern }];
    });
    return cells.length === 0 ? this.problems.add(path, 'it names no column') : { kind: 'cells', cells };
  }

  namesFor(when: When): string[] {
    return [...capturesOf(when), ...(when.kind === 'cells' ? this.columns : []), ...this.shared];
  }

  checkNames(names: ReadonlySet<string>, path: Path, known: readonly string[]): void {
    // Which fields records have is not known before they are read.
    if (this.file.records !== undefined) return;
    for (const name of names) {
      if (!known.includes(name))
        this.problems.add(
          path,
          `"${name}" is neither caught by "when" nor a column or constant; ${suggestion(name, known)}`,
        );
    }
  }

  checkColumns(names: readonly string[], path: Path): void {
    for (const name of names) {
      if (!this.columns.includes(name))
        this.problems.add(path, `there is no column "${name}"; ${suggestion(name, this.columns)}`);
    }
  }
}

/** The names of the groups of a condition. */
export function capturesOf(when: When): string[] {
  return when.kind === 'text'
    ? [...when.pattern.groups.keys()]
    : when.cells.flatMap(({ pattern }) => [...pattern.groups.keys()]);
}
