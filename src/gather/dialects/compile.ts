import { isFieldName } from '../lines/event-fields.js';
import { knownEncoding } from '../lines/encoding.js';
import { captureField, compileField } from './compile-fields.js';
import type { CompiledDialect, ConstantRule, CsvRules, FieldRule, GuidingRule, LineRule, SectionRule, When } from './compiled.js';
import { compileFormula, FormulaError, type Formula } from './formula.js';
import { compilePattern, PatternError, type Pattern } from './pattern/pattern.js';
import type { DialectFile, LineFile } from './schema.js';
import { suggestion, type Problem } from './schema-messages.js';
import { beginOf, endOf } from './spans.js';
import { compileTemplate, TemplateError } from './template.js';
import type { DateRule, TimeRules } from './time/log-clock.js';
import { StampPattern, TimePatternError } from './time/stamp.js';
import { zoneByName } from './time/zone.js';

type Path = readonly (string | number)[];

/** Where compiling notes what is wrong; a part that cannot be compiled gives `null`. */
class Problems {
  readonly list: Problem[] = [];

  add(path: Path, message: string): null {
    this.list.push({ path, message });
    return null;
  }

  attempt<T>(path: Path, what: string, make: () => T): T | null {
    try {
      return make();
    } catch (error) {
      if (error instanceof PatternError || error instanceof FormulaError || error instanceof TemplateError || error instanceof TimePatternError) {
        return this.add(path, `the ${what} cannot be used: ${error.message}`);
      }
      throw error;
    }
  }
}

/**
 * Turns a validated dialect file into rules ready for use.
 *
 * @param lineOf the 1-based line of a path in the file, for messages of later checks
 * @returns the dialect, or the problems that keep it from being used
 */
export function compileDialect(file: DialectFile, path: string, lineOf: (path: Path) => number): CompiledDialect | Problem[] {
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

  constructor(private readonly file: DialectFile, private readonly lineOf: (path: Path) => number) {
    this.comma = file.decimal === ',';
    this.shared = Object.keys(file.constants);
    this.columns = file.csv?.columns ?? file.csv?.header ?? [];
  }

  dialect(path: string): CompiledDialect | null {
    const { file } = this;
    if (file.encoding !== 'auto' && !knownEncoding(file.encoding)) {
      this.problems.add(['encoding'], `"${file.encoding}" is no encoding; use "auto", "utf-8", "utf-16le", "windows-1252" or another name of the WHATWG Encoding Standard`);
    }
    const time = this.time();
    const csv = this.csv();
    const constants = this.constants();
    const sections = this.sections();
    const lines = file.lines.flatMap((line, i) => this.line(line, ['lines', i]) ?? []);
    const ignore = file.ignore.flatMap((when, i) => {
      const compiled = this.when(when, ['ignore', i]);
      return compiled === null ? [] : [{ when: compiled, line: this.lineOf(['ignore', i]) }];
    });
    const guiding = this.guiding();
    const entryStart = file.entries === undefined ? null : file.entries === 'stamp' ? 'stamp' : this.pattern(file.entries.start, ['entries', 'start']);
    if (file.lines.length === 0 && file.guiding === undefined) {
      this.problems.add([], 'it turns no line into anything; add "lines" or "guiding"');
    }
    if (csv !== null && entryStart !== null) this.problems.add(['entries'], 'a log cannot be both CSV and entries of several lines; remove "entries" or "csv"');
    if (time === null) return null;
    return {
      name: file.name ?? path, file: path, encoding: file.encoding, decimalComma: this.comma, time, entryStart, csv,
      train: this.trainRule(), trains: new Map(Object.entries(file.trains)), constants, sections, lines, ignore, guiding,
    };
  }

  private pattern(source: string, path: Path): Pattern | null {
    return this.problems.attempt(path, 'pattern', () => compilePattern(source, this.file.ignoreCase));
  }

  private stampPattern(source: string, path: Path): StampPattern | null {
    return this.problems.attempt(path, 'time pattern', () => new StampPattern(source));
  }

  private formula(source: string | number, path: Path, known: readonly string[]): Formula | null {
    const formula = this.problems.attempt(path, 'formula', () => compileFormula(String(source), this.comma));
    if (formula !== null) this.checkNames(formula.names, path, known);
    return formula;
  }

  private time(): TimeRules | null {
    const { time } = this.file;
    const sources = typeof time.pattern === 'string' ? [time.pattern] : time.pattern;
    const patterns = sources.flatMap((source, i) => {
      const path = typeof time.pattern === 'string' ? ['time', 'pattern'] : ['time', 'pattern', i];
      const pattern = this.stampPattern(source, path);
      if (pattern?.kind === 'date') this.problems.add(path, 'the pattern of a line needs a time of day; a date alone belongs under "date"');
      return pattern ?? [];
    });
    const zone = time.zone === 'site' ? 'site' : zoneByName(time.zone);
    if (zone === null) {
      this.problems.add(['time', 'zone'], `"${time.zone}" is no time zone; use "site", "utc", an offset such as "+02:00", or a name such as "Europe/Madrid"`);
    }
    const date = this.dateRule();
    const dateless = patterns.find((pattern) => pattern.kind === 'time' || pattern.kind === 'month-day-time');
    if (dateless !== undefined && date?.from === 'line') {
      this.problems.add(['time', 'date'], `"${dateless.source}" has no ${dateless.kind === 'time' ? 'date' : 'year'}; say where it comes from: "session", or { file: … } or { header: … }`);
    }
    if (patterns.some((pattern) => pattern.kind === 'elapsed') && this.file.sections.length === 0) {
      this.problems.add(['sections'], 'relative seconds need "sections", which say where they count from');
    }
    return zone === null || date === null ? null : { patterns, anywhere: time.at === 'anywhere', zone, date, carry: time.carry };
  }

  private dateRule(): DateRule | null {
    const { date } = this.file.time;
    if (date === 'line' || date === 'session') return { from: date };
    const source = 'file' in date ? date.file : date.pattern;
    const path = ['time', 'date', 'file' in date ? 'file' : 'pattern'];
    const pattern = this.stampPattern(source, path);
    if (pattern === null) return null;
    if (pattern.kind !== 'date' && pattern.kind !== 'date-time') return this.problems.add(path, 'it must hold the date: {year}, {month} and {day}');
    if ('file' in date) return { from: 'file', pattern, evening: date.evening };
    const when = this.pattern(date.header, ['time', 'date', 'header']);
    if (when === null) return null;
    if (!when.groups.has('date')) return this.problems.add(['time', 'date', 'header'], 'it must catch the date in a group (?<date>…)');
    return { from: 'header', when, pattern, evening: date.evening };
  }

  private csv(): CsvRules | null {
    const { csv } = this.file;
    if (csv === undefined) return null;
    if ((csv.header === undefined) === (csv.columns === undefined)) {
      return this.problems.add(['csv'], 'name the columns once: by "header" when the log has a header row, else by "columns" in their order');
    }
    const time = typeof csv.time === 'string' ? [csv.time] : csv.time;
    this.checkColumns(time, ['csv', 'time']);
    const delimiter = csv.delimiter === 'tab' ? '\t' : csv.delimiter;
    return { delimiter, quote: csv.quote, header: csv.header ?? null, columns: csv.columns ?? null, time };
  }

  private constants(): ConstantRule[] {
    return Object.entries(this.file.constants).map(([name, rule]) => {
      if (typeof rule !== 'object') return { name, initial: rule, when: null };
      const when = this.pattern(rule.when, ['constants', name, 'when']);
      if (when !== null && !when.groups.has('value')) this.problems.add(['constants', name, 'when'], 'it must catch the value in a group (?<value>…)');
      return { name, initial: rule.default, when };
    });
  }

  private sections(): SectionRule[] {
    return this.file.sections.flatMap((section, i) => {
      const begin = this.pattern(section.begin, ['sections', i, 'begin']);
      const base = section.base === undefined ? null : this.stampPattern(section.base, ['sections', i, 'base']);
      const end = section.end === undefined ? null : this.pattern(section.end, ['sections', i, 'end']);
      if (base !== null && begin !== null && !begin.groups.has('time')) {
        this.problems.add(['sections', i, 'begin'], 'it must catch the base time in a group (?<time>…), which "base" then reads');
      }
      return begin === null ? [] : [{ begin, base, end }];
    });
  }

  private when(rule: string | Record<string, string>, path: Path): When | null {
    if (typeof rule === 'string') {
      const pattern = this.pattern(rule, path);
      return pattern === null ? null : { kind: 'text', pattern };
    }
    if (this.file.csv === undefined) return this.problems.add(path, 'patterns for columns need "csv"; without it, "when" is one pattern on the line');
    this.checkColumns(Object.keys(rule), path);
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
      this.problems.add([...path, 'lasted'], `"${events.join('", "')}" ends nothing; "lasted" goes with an event that ends something, such as "exposure-end"`);
    }
    if (lasts !== null && !events.some((event) => endOf(event) !== undefined)) {
      this.problems.add([...path, 'lasts'], `"${events.join('", "')}" begins nothing; "lasts" goes with an event that begins something, such as "exposure-begin"`);
    }
    return {
      when, events, lasted, lasts,
      fields: this.fields(rule, when, known, path),
      train: this.trainTemplate(rule.train, known, path),
      closes: rule.closes === undefined ? [] : typeof rule.closes === 'string' ? [rule.closes] : rule.closes,
      line: this.lineOf(path),
    };
  }

  private fields(rule: LineFile, when: When, known: readonly string[], path: Path): FieldRule[] {
    const fields: FieldRule[] = [];
    const given = new Set<string>();
    for (const [name, value] of Object.entries(rule.fields)) {
      if (!isFieldName(name) || value === undefined) continue;
      given.add(name);
      const field = this.problems.attempt([...path, 'fields', name], 'value', () => compileField(name, value, this.comma));
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
    if (guiding.when === undefined && this.file.csv === undefined) {
      return this.problems.add(['guiding'], '"when" is missing: a pattern that tells the lines with samples and catches their values');
    }
    const when = guiding.when === undefined ? null : this.when(guiding.when, ['guiding', 'when']);
    const known = when === null ? [...this.columns, ...this.shared] : this.namesFor(when);
    const ra = this.formula(guiding.ra, ['guiding', 'ra'], known);
    const dec = this.formula(guiding.dec, ['guiding', 'dec'], known);
    const snr = guiding.snr === undefined ? null : this.formula(guiding.snr, ['guiding', 'snr'], known);
    return ra === null || dec === null ? null : { when, ra, dec, snr };
  }

  private trainRule(): string | Pattern | null {
    const { train } = this.file;
    if (train === undefined || typeof train === 'string') return train ?? null;
    const pattern = this.pattern(train.file, ['train', 'file']);
    if (pattern !== null && !pattern.groups.has('train')) return this.problems.add(['train', 'file'], 'it must catch the train in a group (?<train>…)');
    return pattern;
  }

  private namesFor(when: When): string[] {
    return [...capturesOf(when), ...(when.kind === 'cells' ? this.columns : []), ...this.shared];
  }

  private checkNames(names: ReadonlySet<string>, path: Path, known: readonly string[]): void {
    for (const name of names) {
      if (!known.includes(name)) this.problems.add(path, `"${name}" is neither caught by "when" nor a column or constant; ${suggestion(name, known)}`);
    }
  }

  private checkColumns(names: readonly string[], path: Path): void {
    for (const name of names) {
      if (!this.columns.includes(name)) this.problems.add(path, `there is no column "${name}"; ${suggestion(name, this.columns)}`);
    }
  }
}

function capturesOf(when: When): string[] {
  return when.kind === 'text' ? [...when.pattern.groups.keys()] : when.cells.flatMap(({ pattern }) => [...pattern.groups.keys()]);
}
