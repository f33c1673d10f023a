import type { LogEvent } from '../../model/index.js';
import type { SampleColumns } from '../lines/sample-columns.js';
import type { WarningTally } from '../lines/warning-tally.js';
import type { CompiledDialect, GuidingRule, LineRule, SectionRule } from './compiled.js';
import { CsvRows } from './csv-rows.js';
import { CsvTables } from './csv-tables.js';
import { EventMaker } from './event-maker.js';
import type { Fate } from './fate.js';
import { LineValues } from './line-values.js';
import { caught } from './pattern/caught.js';
import { RecordRows } from './records/record-rows.js';
import { rolesOf, type Context, type Role } from './roles.js';
import type { RowSource } from './rows.js';
import { SampleTaker } from './sample-taker.js';
import { StateRows } from './state-rows.js';
import type { LogClock } from './time/log-clock.js';
import { isUsableTime } from './usable-time.js';

/** Turns the texts of lines, entries and rows, each with its time, into events and guiding samples. */
export class LineTaker {
  /** The dialect's patterns on whole lines, in the order they are tried. */
  readonly roles: readonly Role[];
  readonly rows: RowSource | null;
  /** Index in `lines` or `ignore` of the rule that matched the last text; −1 if none did. */
  matchedRule = -1;
  /** Additional rules that matched a row's changes: a row may have several. */
  alsoMatched: readonly number[] = [];
  /** If the log has several tables. */
  readonly tables: CsvTables | null;
  private readonly states: StateRows | null;
  private readonly cells: CsvRows | CsvTables | null;
  private readonly guiding: SampleTaker;
  private readonly maker: EventMaker;
  private readonly values = new LineValues();

  constructor(
    private readonly dialect: CompiledDialect,
    file: string,
    train: string | undefined,
    private readonly clock: LogClock,
    private readonly tally: WarningTally,
  ) {
    this.guiding = new SampleTaker(dialect.decimalComma, clock, tally, this.values);
    this.maker = new EventMaker(file, dialect, train, tally);
    this.roles = rolesOf(dialect);
    const [table, ...others] = dialect.csv ?? [];
    const { carry } = dialect.time;
    this.tables = others.length > 0 ? new CsvTables(dialect.csv ?? [], carry, () => clock.beginTable()) : null;
    const ofOne = table === undefined ? null : new CsvRows(table, carry);
    this.cells = this.tables ?? ofOne;
    const rows = this.cells ?? (dialect.records === null ? null : new RecordRows(dialect.records));
    this.states = rows === null || dialect.states === null ? null : new StateRows(rows, dialect.states);
    this.rows = this.states ?? rows;
    for (const { name, initial } of dialect.constants)
      if (initial !== undefined) this.values.constants.set(name, initial);
  }

  get events(): readonly LogEvent[] {
    return this.maker.events;
  }

  get samples(): SampleColumns {
    return this.guiding.samples;
  }

  /**
   * Tries the candidates in order. Context is taken from every pattern that matches, everything else from the first.
   */
  takeText(text: string, line: number, atMs: number, candidates: Int32Array, count: number): Fate {
    let fate: Fate = 'unmatched';
    for (let i = 0; i < count; i++) {
      const role = this.roles[candidates[i] ?? -1];
      const captures = role === undefined ? null : caught(role.pattern, text);
      if (role === undefined || captures === null) continue;
      this.values.useText(role.pattern, captures);
      switch (role.kind) {
        case 'date':
        case 'constant':
        case 'section':
        case 'section-end':
          this.takeContext(role, atMs, text, line);
          fate = 'context';
          break;
        case 'line':
          this.matchedRule = role.index;
          return this.makeEvents(role.rule, this.ownTime(atMs, line), line);
        case 'guiding':
          return role.rule.each === false
            ? this.guiding.takeOne(role.rule, this.ownTime(atMs, line), line)
            : this.guiding.takeEach(role.rule, role.pattern, text, this.batchTime(role.rule, text, atMs, line), line);
        case 'ignore':
          if (fate === 'context') return fate;
          this.matchedRule = role.index;
          return 'ignored';
      }
    }
    return fate;
  }

  private startSection(section: SectionRule, atMs: number, text: string, line: number): void {
    const { clock, rows } = this;
    const stated = this.values.captured('elapsed');
    const countMs =
      stated !== undefined
        ? clock.counts.in(stated)
        : !section.sync
          ? 0
          : rows?.timeInCells === true
            ? rows.takeRow(text)
              ? clock.counts.in(rows.time())
              : NaN
            : clock.counts.on(line);
    clock.startSection(this.values.captured('time') ?? atMs, section, countMs, line);
  }

  private takeContext(role: Context, atMs: number, text: string, line: number): void {
    const { date } = this.dialect.time;
    if (role.kind === 'constant') {
      const value = this.values.captured('value');
      if (value !== undefined) this.values.constants.set(role.name, value);
    } else if (role.kind === 'section') {
      this.startSection(role.section, atMs, text, line);
    } else if (role.kind === 'section-end') {
      this.clock.endSection();
    } else if (date.from === 'header') {
      this.clock.setDate(this.values.captured('date') ?? '', date, line, this.values.captured('offset'));
    }
  }

  /** The fate of a row that no text rule matched; a context row is a row nevertheless. */
  rowFate(fate: Fate, text: string, atMs: number, line: number): Fate {
    if (this.rows === null) return fate;
    if (this.tables?.takeHeading(text) === true) return fate === 'unmatched' ? 'context' : fate;
    // Elapsed time counts for later rows, whatever becomes of this one.
    if (this.dialect.time.since === 'previous') this.rowTime(this.rows, text, atMs, line);
    if (fate !== 'unmatched' && fate !== 'context') return fate;
    // A row that only states the date, for example, has no time of its own.
    if (fate === 'context' && Number.isNaN(this.rowTime(this.rows, text, atMs, line))) return fate;
    const asRow = this.takeRow(this.rows, text, atMs, line);
    return asRow === 'unmatched' ? fate : asRow;
  }

  /** The time of a row, in its cells or before it; NaN if the text is not a row. */
  private rowTime(rows: RowSource, text: string, stampMs: number, line: number): number {
    if (!rows.takeRow(text)) return NaN;
    return rows.timeInCells ? this.timeInCells(rows, line) : stampMs;
  }

  /** The time in the cells of a row, or that of the row above where they are empty. */
  private timeInCells(rows: RowSource, line: number): number {
    const isCarried = this.dialect.time.carry && rows.time() === '';
    return isCarried ? this.clock.nowMs : this.clock.readText(rows.time(), line);
  }

  /** Processes a line without a text rule as a row: header, event, guiding sample or ignored. */
  private takeRow(csv: RowSource, text: string, stampMs: number, line: number): Fate {
    if (csv.takeHeader(text)) return 'context';
    if (!csv.takeRow(text)) return 'unmatched';
    const atMs = csv.timeInCells ? this.timeInCells(csv, line) : stampMs;
    const { values, states } = this;
    const { guiding, ignore } = this.dialect;
    values.useRow(csv);
    const isSampled =
      guiding !== null &&
      (guiding.when === null ? guiding.columns.every((name) => csv.has(name)) : values.matchCells(csv, guiding.when));
    // A record that holds samples may also be about guiding.
    const ofList =
      isSampled && guiding.list !== null ? this.guiding.takeList(guiding, guiding.list, text, atMs, line) : null;
    const fate = states?.isOfStates === true ? this.takeChanges(states, atMs, line) : this.takeCells(csv, atMs, line);
    if (fate !== 'unmatched' && fate !== 'ignored') {
      if (states !== null && isSampled && guiding.list === null) this.takeSample(guiding, csv, atMs, line);
      return fate;
    }
    if (ofList !== null && ofList !== 'unmatched') return ofList;
    if (isSampled && guiding.list === null) {
      return this.takeSample(guiding, csv, atMs, line);
    }
    if (fate === 'ignored') return fate;
    this.matchedRule = ignore.findIndex(({ when }) => values.matchCells(csv, when));
    return this.matchedRule < 0 ? 'unmatched' : 'ignored';
  }

  /** The results of the rules for each cell that is a row of its own, or for the row as a whole. */
  private takeCells(csv: RowSource, atMs: number, line: number): Fate {
    const { cells } = this;
    const parts = cells?.parts() ?? [];
    if (cells === null || parts.length === 0) return this.takeByRule(csv, atMs, line);
    return this.takeParts(parts, (part) => cells.lookAt(part), csv, atMs, line);
  }

  /** The result of the first rule that matches a row. */
  private takeByRule(csv: RowSource, atMs: number, line: number): Fate {
    const { lines } = this.dialect;
    this.matchedRule = lines.findIndex((rule) => this.values.matchCells(csv, rule.when));
    const rule = lines[this.matchedRule];
    return rule === undefined ? 'unmatched' : this.makeEvents(rule, atMs, line);
  }

  /** The results of the rules for all changes since the previous row; a row without changes yields nothing. */
  private takeChanges(states: StateRows, atMs: number, line: number): Fate {
    const changes = states.changes();
    // A row without states, or with unchanged ones, may still report something.
    if (changes.length === 0 && states.isKeyed) return this.takeByRule(states, atMs, line);
    if (changes.length === 0) return 'ignored';
    return this.takeParts(changes, (change) => states.lookAt(change), states, atMs, line);
  }

  /** What the rules make of each part of a row. @param lookAt shows a part only, or the whole row */
  private takeParts<T>(
    parts: readonly T[],
    lookAt: (part: T | null) => void,
    rows: RowSource,
    atMs: number,
    line: number,
  ): Fate {
    const rules: number[] = [];
    let fate: Fate = 'unmatched';
    for (const part of parts) {
      lookAt(part);
      const own = this.takeByRule(rows, atMs, line);
      if (this.matchedRule >= 0) rules.push(this.matchedRule);
      if (own !== 'unmatched' && fate !== 'events') fate = own;
    }
    lookAt(null);
    [this.matchedRule = -1, ...this.alsoMatched] = rules;
    return fate;
  }

  private takeSample(guiding: GuidingRule, csv: RowSource, atMs: number, line: number): Fate {
    if (guiding.when !== null) this.values.matchCells(csv, guiding.when);
    return this.guiding.takeOne(guiding, atMs, line);
  }

  private makeEvents(rule: LineRule, atMs: number, line: number): Fate {
    if (!isUsableTime(atMs, line, this.tally)) return 'unusable';
    this.maker.make(rule, this.values.lookup, atMs, line, this.clock);
    return 'events';
  }

  /** The time of a line with several samples: that of its record, if a record holds them at a constant interval. */
  private batchTime(rule: GuidingRule, text: string, atMs: number, line: number): number {
    return this.rows?.timeInCells === true && rule.every !== null ? this.rowTime(this.rows, text, atMs, line) : atMs;
  }

  /** The time captured by a group `time`, else the line's. */
  private ownTime(atMs: number, line: number): number {
    const text = this.values.captured('time');
    return text === undefined ? atMs : this.clock.readText(text, line);
  }
}
