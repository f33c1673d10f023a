import {
  EARLIEST_YEAR,
  GUIDING_ARCSEC,
  isPlausibleInstant,
  isWithin,
  LATEST_YEAR,
  SIGNAL_TO_NOISE,
  type LogEvent,
} from '../../model/index.js';
import { SampleColumns } from '../lines/sample-columns.js';
import type { WarningTally } from '../lines/warning-tally.js';
import type { CompiledDialect, GuidingRule, LineRule, SectionRule } from './compiled.js';
import { CsvRows } from './csv-rows.js';
import { EventMaker } from './event-maker.js';
import { type OneOfSeveral, samplesIn, steadyTimes } from './guiding-samples.js';
import { LineValues } from './line-values.js';
import { RecordRows } from './records/record-rows.js';
import { rolesOf, type Context, type Role } from './roles.js';
import type { RowSource } from './rows.js';
import type { LogClock } from './time/log-clock.js';

/**
 * What became of a line: it gave events, a guiding sample or something for other lines; it is to be ignored; a rule
 * matched, but time or numbers cannot be read; or nothing matched.
 */
export type Fate = 'events' | 'sample' | 'context' | 'ignored' | 'unusable' | 'unmatched';

/** Turns the texts of lines, entries and rows, each with its time, into events and guiding samples. */
export class LineTaker {
  readonly samples = new SampleColumns();
  /** The dialect's patterns on whole lines, in the order they are tried. */
  readonly roles: readonly Role[];
  readonly rows: RowSource | null;
  /** Index of the rule that took the last text in `lines` or `ignore`; −1 where there was none. */
  matchedRule = -1;
  private readonly maker: EventMaker;
  private readonly values = new LineValues();

  constructor(
    private readonly dialect: CompiledDialect,
    file: string,
    train: string | undefined,
    private readonly clock: LogClock,
    private readonly tally: WarningTally,
  ) {
    this.maker = new EventMaker(file, dialect.lines, dialect.trains, train, tally);
    this.roles = rolesOf(dialect);
    this.rows =
      dialect.csv !== null
        ? new CsvRows(dialect.csv)
        : dialect.records !== null
          ? new RecordRows(dialect.records)
          : null;
    for (const { name, initial } of dialect.constants)
      if (initial !== undefined) this.values.constants.set(name, initial);
  }

  get events(): readonly LogEvent[] {
    return this.maker.events;
  }

  /** Tries the candidates in order. Context is taken from every pattern that matches, the rest from the first. */
  takeText(text: string, line: number, atMs: number, candidates: Int32Array, count: number): Fate {
    let fate: Fate = 'unmatched';
    for (let i = 0; i < count; i++) {
      const role = this.roles[candidates[i] ?? -1];
      const captures = role?.pattern.exec(text) ?? null;
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
          return role.rule.each !== false
            ? this.takeSamples(role, atMs, text, line)
            : this.takeSample(role.rule, this.ownTime(atMs, line), line);
        case 'ignore':
          if (fate === 'context') return fate;
          this.matchedRule = role.index;
          return 'ignored';
      }
    }
    return fate;
  }

  private startSection({ base, sync }: SectionRule, atMs: number, text: string, line: number): void {
    const { clock, rows } = this;
    const stated = this.values.captured('elapsed');
    const countMs =
      stated !== undefined
        ? clock.countIn(stated)
        : !sync
          ? 0
          : rows?.timeInCells === true
            ? rows.takeRow(text)
              ? clock.countIn(rows.time())
              : NaN
            : clock.countOn(line);
    clock.startSection(this.values.captured('time') ?? atMs, base, countMs, line);
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
      this.clock.setDate(this.values.captured('date') ?? '', date.pattern, date.evening, line);
    }
  }

  /** What becomes of a row that no text rule took; a row that states something for others is a row nevertheless. */
  rowFate(fate: Fate, text: string, atMs: number, line: number): Fate {
    if (this.rows === null || (fate !== 'unmatched' && fate !== 'context')) return fate;
    // What only states the date, say, is no row: it has no time of its own.
    if (fate === 'context' && !this.isTimedRow(this.rows, text, atMs, line)) return fate;
    const asRow = this.takeRow(this.rows, text, atMs, line);
    return asRow === 'unmatched' ? fate : asRow;
  }

  private isTimedRow(rows: RowSource, text: string, stampMs: number, line: number): boolean {
    return !Number.isNaN(this.rowTime(rows, text, stampMs, line));
  }

  /** The time of a row, in its cells or in front of it; NaN where the text is none. */
  private rowTime(rows: RowSource, text: string, stampMs: number, line: number): number {
    if (!rows.takeRow(text)) return NaN;
    return rows.timeInCells ? this.clock.readText(rows.time(), line) : stampMs;
  }

  /** Takes a line that is no text rule's as a row: header, event, guiding sample or ignored. */
  private takeRow(csv: RowSource, text: string, stampMs: number, line: number): Fate {
    if (csv.takeHeader(text)) return 'context';
    if (!csv.takeRow(text)) return 'unmatched';
    const atMs = csv.timeInCells ? this.clock.readText(csv.time(), line) : stampMs;
    const { values } = this;
    const { lines, guiding, ignore } = this.dialect;
    values.useRow(csv);
    this.matchedRule = lines.findIndex((rule) => values.matchCells(csv, rule.when));
    const rule = lines[this.matchedRule];
    if (rule !== undefined) return this.makeEvents(rule, atMs, line);
    if (guiding !== null && (guiding.when === null || values.matchCells(csv, guiding.when)))
      return this.takeSample(guiding, atMs, line);
    this.matchedRule = ignore.findIndex(({ when }) => values.matchCells(csv, when));
    return this.matchedRule < 0 ? 'unmatched' : 'ignored';
  }

  private makeEvents(rule: LineRule, atMs: number, line: number): Fate {
    if (!this.hasTime(atMs, line)) return 'unusable';
    this.maker.make(rule, this.values.lookup, atMs, line, (text) => this.clock.readCaught(text, atMs, line));
    return 'events';
  }

  private takeSample(rule: GuidingRule, atMs: number, line: number): Fate {
    if (!this.hasTime(atMs, line)) return 'unusable';
    const { lookup } = this.values;
    const errors = { ra: rule.ra.evaluate(lookup), dec: rule.dec.evaluate(lookup), snr: rule.snr?.evaluate(lookup) };
    return this.keepSample({ ...errors, snr: errors.snr ?? NaN }, atMs, line);
  }

  private keepSample({ ra, dec, snr }: Omit<OneOfSeveral, 'time'>, atMs: number, line: number): Fate {
    if (isWithin(ra, GUIDING_ARCSEC) && isWithin(dec, GUIDING_ARCSEC)) {
      this.samples.push(atMs, ra, dec, isWithin(snr, SIGNAL_TO_NOISE) ? snr : NaN);
      return 'sample';
    }
    this.tally.add(
      'unreadable-sample',
      line,
      () =>
        `Line ${line} has no numbers from ${GUIDING_ARCSEC.from} to ${GUIDING_ARCSEC.to} for "ra" ` +
        'and "dec"; the sample was left out. Check the formulas of "guiding" and that their ' +
        'constants stand before.',
    );
    return 'unusable';
  }

  /** Several samples of a text, each with a time of its own or steadily before or after the line's. */
  private takeSamples(role: Extract<Role, { kind: 'guiding' }>, atMs: number, text: string, line: number): Fate {
    const found = samplesIn(text, role.pattern, role.rule, this.values, this.dialect.decimalComma);
    const isOfRow = this.rows?.timeInCells === true && role.rule.every !== null;
    const batchMs = isOfRow && this.rows !== null ? this.rowTime(this.rows, text, atMs, line) : atMs;
    const times = steadyTimes(batchMs, found.length, role.rule);
    const fates = found.map((sample, i) => {
      const own = sample.time === undefined ? times[i] : this.clock.readCaught(sample.time, atMs, line);
      return own !== undefined && this.hasTime(own, line) ? this.keepSample(sample, own, line) : 'unusable';
    });
    return fates.includes('sample') ? 'sample' : 'unusable';
  }

  private hasTime(atMs: number, line: number): boolean {
    if (isPlausibleInstant(atMs)) return true;
    if (!Number.isNaN(atMs)) {
      this.tally.add(
        'absurd-time',
        line,
        () =>
          `Line ${line} was left out: its time lies outside the years ${EARLIEST_YEAR} to ` +
          `${LATEST_YEAR}. Check "time.pattern".`,
      );
      return false;
    }
    this.tally.add(
      'unreadable-time',
      line,
      () =>
        `Line ${line} matches the dialect, but no time can be read from it; it was left out. Check ` +
        '"time.pattern", or set "time.carry" where lines share the time of one before.',
    );
    return false;
  }

  /** The time that a group `time` caught, else the line's. */
  private ownTime(atMs: number, line: number): number {
    const text = this.values.captured('time');
    return text === undefined ? atMs : this.clock.readText(text, line);
  }
}
