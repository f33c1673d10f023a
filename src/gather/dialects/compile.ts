import { beginOf, endOf, type EventName } from '../../model/index.js';
import { isFieldName } from '../lines/event-fields.js';
import { knownEncoding } from '../lines/encoding.js';
import { captureField, compileField } from './compile-fields.js';
import type {
  CompiledDialect,
  ConstantRule,
  CsvRules,
  FieldRule,
  GuidingRule,
  LineRule,
  RecordRules,
  SectionRule,
  When,
} from './compiled.js';
import { compileTime } from './compile-time.js';
import { compileFormula, type Formula } from './formula.js';
import type { Pattern } from './pattern/pattern.js';
import { Problems, type Path } from './problems.js';
import type { DialectFile, LineFile } from './schema.js';
import { suggestion, type Problem } from './schema-messages.js';
import { compileTemplate } from './template.js';

/**
 * Turns a validated dialect file into rules ready for use.
 *
 * @param lineOf the 1-based line of a path in the file, for messages of later checks
 * @returns the dialect, or the problems that keep it from being used
 */
export function compileDialect(
  file: DialectFile,
  path: string,
  lineOf: (path: Path) => number,
): CompiledDialect | Problem[] {
  const compiler = new Compiler(file, lineOf);
  const dialect = compiler.dialect(path);
  return compiler.problems.list.length > 0 || dialect === null ? compiler.problems.list : dialect;
}

class Compiler {
  readonly problems = new Problems();
  private readonly comma: boolean;
  /** Names every rule can use. */
  private readonly shared: readonly string[];
  private readonly columns: readonly string[];

  constructor(
    private readonly file: DialectFile,
    private readonly lineOf: (path: Path) => number,
  ) {
    this.comma = file.decimal === ',';
    this.shared = Object.keys(file.constants);
    this.columns = file.csv?.columns ?? file.csv?.header ?? [];
  }

  dialect(path: string): CompiledDialect | null {
    const { file } = this;
    if (file.encoding !== 'auto' && !knownEncoding(file.encoding)) {
      this.problems.add(
        ['encoding'],
        `"${file.encoding}" is no encoding; use "auto", "utf-8", "utf-16le", "windows-1252" or ` +
          'another name of the WHATWG Encoding Standard',
      );
    }
    const time = compileTime(file, this.problems);
    const csv = this.csv();
    const records = this.records(csv);
    const constants = this.constants();
    const sections = this.sections();
    const lines = file.lines.flatMap((line, i) => this.line(line, ['lines', i]) ?? []);
    const ignore = file.ignore.flatMap((when, i) => {
      const compiled = this.when(when, ['ignore', i]);
      return compiled === null ? [] : [{ when: compiled, line: this.lineOf(['ignore', i]) }];
    });
    const guiding = this.guiding();
    const entryStart =
      file.entries === undefined
        ? null
        : typeof file.entries === 'string'
          ? file.entries
          : this.pattern(file.entries.start, ['entries', 'start']);
    if (file.lines.length === 0 && file.guiding === undefined) {
      this.problems.add([], 'it turns no line into anything; add "lines" or "guiding"');
    }
    if (csv !== null && entryStart !== null)
      this.problems.add(
        ['entries'],
        'a log cannot be both CSV and entries of several lines; remove "entries" or "csv"',
      );
    if (time === null) return null;
    return {
      name: file.name ?? path,
      file: path,
      encoding: file.encoding,
      decimalComma: this.comma,
      budget: this.problems.budget,
      time,
      entryStart,
      csv,
      records,
      train: this.trainRule(),
      trains: new Map(Object.entries(file.trains)),
      constants,
      sections,
      lines,
      ignore,
      guiding,
    };
  }

  private pattern(source: string, path: Path): Pattern | null {
    return this.problems.pattern(source, path, this.file.ignoreCase);
  }

  private formula(source: string | number, path: Path, known: readonly string[]): Formula | null {
    const formula = this.problems.attempt(path, 'formula', () => compileFormula(String(source), this.comma));
    if (formula !== null) this.checkNames(formula.names, path, known);
    return formula;
  }

  private csv(): CsvRules | null {
    const { csv } = this.file;
    if (csv === undefined) return null;
    if ((csv.header === undefined) === (csv.columns === undefined)) {
      return this.problems.add(
        ['csv'],
        'name the columns once: by "header" when the log has a header row, else by "columns" in their order',
      );
    }
    const time = typeof csv.time === 'string' ? [csv.time] : csv.time;
    this.checkColumns(time, ['csv', 'time']);
    const delimiter = csv.delimiter === 'tab' ? '\t' : csv.delimiter;
    return { delimiter, quote: csv.quote, header: csv.header ?? null, columns: csv.columns ?? null, time };
  }

  private records(csv: CsvRules | null): RecordRules | null {
    const { records } = this.file;
    if (records === undefined) return null;
    if (csv !== null)
      return this.problems.add(['records'], 'a log is either "csv" or "records"; remove one of the two');
    const { time = [] } = records;
    return { form: records.as, time: typeof time === 'string' ? [time] : time, join: records.join ?? null };
  }

  private constants(): ConstantRule[] {
    return Object.entries(this.file.constants).map(([name, rule]) => {
      if (typeof rule !== 'object') return { name, initial: rule, when: null };
      const when = this.pattern(rule.when, ['constants', name, 'when']);
      if (when !== null && !when.groups.has('value'))
        this.problems.add(['constants', name, 'when'], 'it must catch the value in a group (?<value>…)');
      return { name, initial: rule.default, when };
    });
  }

  private sections(): SectionRule[] {
    return this.file.sections.flatMap((section, i) => {
      const begin = this.pattern(section.begin, ['sections', i, 'begin']);
      const base =
        section.base === undefined ? null : this.problems.stampPattern(section.base, ['sections', i, 'base']);
      const end = section.end === undefined ? null : this.pattern(section.end, ['sections', i, 'end']);
      if (base !== null && begin !== null && !begin.groups.has('time')) {
        this.problems.add(
          ['sections', i, 'begin'],
          'it must catch the base time in a group (?<time>…), which "base" then reads',
        );
      }
      return begin === null ? [] : [{ begin, base, end }];
    });
  }

  private when(rule: string | Record<string, string>, path: Path): When | null {
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

  private line(rule: LineFile, path: Path): LineRule | null {
    const when = this.when(rule.when, [...path, 'when']);
    if (when === null) return null;
    const events = typeof rule.event === 'string' ? [rule.event] : rule.event;
    const known = this.namesFor(when);
    const lasted = rule.lasted === undefined ? null : this.formula(rule.lasted, [...path, 'lasted'], known);
    const lasts = rule.lasts === undefined ? null : this.formula(rule.lasts, [...path, 'lasts'], known);
    if (lasted !== null && !events.some((event) => beginOf(event) !== undefined)) {
      this.problems.add(
        [...path, 'lasted'],
        `"${events.join('", "')}" ends nothing; "lasted" goes with an event that ends something, ` +
          'such as "exposure-end"',
      );
    }
    if (lasts !== null && !events.some((event) => endOf(event) !== undefined)) {
      this.problems.add(
        [...path, 'lasts'],
        `"${events.join('", "')}" begins nothing; "lasts" goes with an event that begins something, ` +
          'such as "exposure-begin"',
      );
    }
    return {
      when,
      events,
      lasted,
      lasts,
      at: this.at(rule, when, events, path),
      fields: this.fields(rule, when, known, path),
      train: this.trainTemplate(rule.train, known, path),
      closes: rule.closes === undefined ? [] : typeof rule.closes === 'string' ? [rule.closes] : rule.closes,
      line: this.lineOf(path),
    };
  }

  private at(rule: LineFile, when: When, events: readonly EventName[], path: Path): LineRule['at'] {
    const at = new Map<EventName, string>();
    for (const [event, name] of Object.entries(rule.at) as [EventName, string][]) {
      if (!events.includes(event))
        this.problems.add(
          [...path, 'at', event],
          `"${event}" is none of the events of this rule; name it under "event"`,
        );
      this.checkNames(new Set([name]), [...path, 'at', event], this.namesFor(when));
      at.set(event, name);
    }
    return at;
  }

  private fields(rule: LineFile, when: When, known: readonly string[], path: Path): FieldRule[] {
    const fields: FieldRule[] = [];
    const given = new Set<string>();
    for (const [name, value] of Object.entries(rule.fields)) {
      if (!isFieldName(name) || value === undefined) continue;
      given.add(name);
      const field = this.problems.attempt([...path, 'fields', name], 'value', () =>
        compileField(name, value, this.comma),
      );
      if (field === null) continue;
      this.checkNames(field.names, [...path, 'fields', name], known);
      fields.push(field);
    }
    for (const name of capturesOf(when)) {
      if (isFieldName(name) && !given.has(name)) fields.push(captureField(name, this.comma));
    }
    return fields;
  }

  private trainTemplate(source: string | undefined, known: readonly string[], path: Path): LineRule['train'] {
    const text = source ?? (known.includes('train') ? '{train}' : undefined);
    if (text === undefined) return null;
    const template = this.problems.attempt([...path, 'train'], 'train', () => compileTemplate(text));
    if (template !== null) this.checkNames(template.names, [...path, 'train'], known);
    return template;
  }

  private guiding(): GuidingRule | null {
    const { guiding } = this.file;
    if (guiding === undefined) return null;
    if (guiding.when === undefined && this.file.csv === undefined && this.file.records === undefined) {
      return this.problems.add(
        ['guiding'],
        '"when" is missing: a pattern that tells the lines with samples and catches their values',
      );
    }
    const when = guiding.when === undefined ? null : this.when(guiding.when, ['guiding', 'when']);
    const known = when === null ? [...this.columns, ...this.shared] : this.namesFor(when);
    const ra = this.formula(guiding.ra, ['guiding', 'ra'], known);
    const dec = this.formula(guiding.dec, ['guiding', 'dec'], known);
    const snr = guiding.snr === undefined ? null : this.formula(guiding.snr, ['guiding', 'snr'], known);
    if (guiding.each && when?.kind !== 'text')
      this.problems.add(['guiding', 'each'], '"each" needs a pattern on the line\'s text, which matches one sample');
    return ra === null || dec === null ? null : { when, each: guiding.each, ra, dec, snr };
  }

  private trainRule(): string | Pattern | null {
    const { train } = this.file;
    if (train === undefined || typeof train === 'string') return train ?? null;
    const pattern = this.pattern(train.file, ['train', 'file']);
    if (pattern !== null && !pattern.groups.has('train'))
      return this.problems.add(['train', 'file'], 'it must catch the train in a group (?<train>…)');
    return pattern;
  }

  private namesFor(when: When): string[] {
    return [...capturesOf(when), ...(when.kind === 'cells' ? this.columns : []), ...this.shared];
  }

  private checkNames(names: ReadonlySet<string>, path: Path, known: readonly string[]): void {
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

  private checkColumns(names: readonly string[], path: Path): void {
    for (const name of names) {
      if (!this.columns.includes(name))
        this.problems.add(path, `there is no column "${name}"; ${suggestion(name, this.columns)}`);
    }
  }
}

function capturesOf(when: When): string[] {
  return when.kind === 'text'
    ? [...when.pattern.groups.keys()]
    : when.cells.flatMap(({ pattern }) => [...pattern.groups.keys()]);
}
