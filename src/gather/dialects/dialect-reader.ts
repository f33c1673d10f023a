import {
  EARLIEST_YEAR,
  GUIDING_ARCSEC,
  isPlausibleInstant,
  isWithin,
  LATEST_YEAR,
  SIGNAL_TO_NOISE,
  type LogEvent,
} from '../../model/index.js';
import { blockText, lineEnd, lineStart, type LineBlock } from '../lines/read-lines.js';
import { SampleColumns } from '../lines/sample-columns.js';
import type { WarningTally } from '../lines/warning-tally.js';
import { CandidateFinder } from './candidates.js';
import type { CompiledDialect, GuidingRule, LineRule } from './compiled.js';
import { CsvRows } from './csv-rows.js';
import { RecordRows } from './records/record-rows.js';
import type { RowSource } from './rows.js';
import { EventMaker } from './event-maker.js';
import { LineValues } from './line-values.js';
import { isContext, rolesOf, type Context, type Role } from './roles.js';
import type { LogClock } from './time/log-clock.js';

/** Patterns see this much of a line or entry: what follows is no log message. */
const MAX_TEXT = 64 * 1024;

/**
 * What became of a line: it gave events, a guiding sample or something for other lines; it is to be ignored; a rule
 * matched, but time or numbers cannot be read; or nothing matched.
 */
export type Fate = 'events' | 'sample' | 'context' | 'ignored' | 'unusable' | 'unmatched';

/**
 * Told what became of every line or entry.
 *
 * @param line 1-based number of its first line
 * @param lines how many lines it has
 * @param text the text that the patterns saw: the line without its stamp
 * @param rule index of the rule in `lines` or `ignore`, −1 where there is none
 */
export type LineObserver = (line: number, lines: number, text: string, fate: Fate, rule: number) => void;

/** An entry of several lines while it is being gathered. */
interface Entry {
  text: string;
  readonly line: number;
  lines: number;
  readonly atMs: number;
  /** One of its lines gave something for others. */
  hasContext: boolean;
}

/** Turns the blocks of one log into events and guiding samples. */
export class DialectReader {
  readonly samples = new SampleColumns();
  understood = 0;
  /** Lines that some rule matched, understood or not. */
  matched = 0;
  private readonly maker: EventMaker;
  private readonly roles: readonly Role[];
  /** Numbers of the roles that are tried on whole entries, and of those that are tried on each of its lines. */
  private readonly entryRoles: Int32Array;
  private readonly contextRoles: Int32Array;
  private readonly finder: CandidateFinder;
  private readonly rows: RowSource | null;
  private readonly values = new LineValues();
  private entry: Entry | null = null;
  private matchedRule = -1;

  constructor(
    private readonly dialect: CompiledDialect,
    file: string,
    train: string | undefined,
    private readonly clock: LogClock,
    private readonly tally: WarningTally,
    private readonly observer: LineObserver | null,
  ) {
    this.maker = new EventMaker(file, dialect.lines, dialect.trains, train, tally);
    this.roles = rolesOf(dialect);
    const ids = [...this.roles.keys()];
    this.entryRoles = Int32Array.from(ids.filter((id) => !isContext(this.roles[id])));
    this.contextRoles = Int32Array.from(ids.filter((id) => isContext(this.roles[id])));
    this.finder = new CandidateFinder(this.roles.map(({ pattern }) => pattern));
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

  take(block: LineBlock): void {
    if (this.dialect.entryStart !== null) {
      for (let i = 0; i < block.count; i++) this.takeEntryLine(block, i);
      return;
    }
    const everyLine =
      this.rows !== null || this.observer !== null || this.dialect.time.carry || this.clock.mustFollow(block);
    this.finder.forEach(block, everyLine, (i, candidates, count) => this.takeLine(block, i, candidates, count));
  }

  /** Ends the last entry. */
  finish(): void {
    this.flushEntry();
  }

  private takeLine(block: LineBlock, i: number, candidates: Int32Array, count: number): void {
    const start = lineStart(block, i);
    const end = lineEnd(block, i);
    if (end === start) return;
    const line = block.firstLine + i;
    // A row's time stands in its columns; the beginning of the line may only look like a stamp.
    const inCells = this.rows?.timeInCells === true;
    const after = !inCells || count > 0 ? this.clock.readLine(block.bytes, start, end, line) : -1;
    if (count === 0 && this.rows === null && this.observer === null) return;
    const from = inCells || this.dialect.time.anywhere || after < 0 ? start : after;
    const text = blockText(block, from, Math.min(end, from + MAX_TEXT)).trim();
    let fate = count === 0 ? 'unmatched' : this.takeText(text, line, this.timeOf(after), candidates, count);
    fate = this.rowFate(fate, text, this.timeOf(after), line);
    this.settle(line, 1, text, fate);
  }

  private timeOf(stampEnd: number): number {
    return stampEnd >= 0 || this.dialect.time.carry ? this.clock.nowMs : NaN;
  }

  private takeEntryLine(block: LineBlock, i: number): void {
    const start = lineStart(block, i);
    const end = lineEnd(block, i);
    if (end === start) return;
    const line = block.firstLine + i;
    const text = blockText(block, start, Math.min(end, start + MAX_TEXT));
    const after = this.clock.readLine(block.bytes, start, end, line);
    // Dates, constants and sections stand on single lines, and hold from the next line on.
    const hasContext =
      this.takeText(text.trim(), line, this.timeOf(after), this.contextRoles, this.contextRoles.length) === 'context';
    const { entryStart } = this.dialect;
    const starts = entryStart === 'stamp' ? after >= 0 : entryStart?.exec(text) !== null;
    if (this.entry !== null && !starts) {
      if (this.entry.text.length < MAX_TEXT) this.entry.text += `\n${text}`;
      this.entry.lines++;
      this.entry.hasContext ||= hasContext;
      return;
    }
    this.flushEntry();
    const message =
      after < 0 || this.dialect.time.anywhere ? text : blockText(block, after, Math.min(end, after + MAX_TEXT));
    this.entry = { text: message, line, lines: 1, atMs: this.timeOf(after), hasContext };
  }

  private flushEntry(): void {
    if (this.entry === null) return;
    const { text, line, lines, atMs, hasContext } = this.entry;
    this.entry = null;
    const message = text.slice(0, MAX_TEXT).trim();
    let fate = this.takeText(message, line, atMs, this.entryRoles, this.entryRoles.length);
    fate = this.rowFate(fate, message, atMs, line);
    this.settle(line, lines, message, fate === 'unmatched' && hasContext ? 'context' : fate);
  }

  private settle(line: number, lines: number, text: string, fate: Fate): void {
    if (fate !== 'unmatched') this.matched += lines;
    if (fate !== 'unmatched' && fate !== 'unusable') this.understood += lines;
    this.observer?.(line, lines, text, fate, this.matchedRule);
    this.matchedRule = -1;
  }

  /** Tries the candidates in order. Context is taken from every pattern that matches, the rest from the first. */
  private takeText(text: string, line: number, atMs: number, candidates: Int32Array, count: number): Fate {
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
          this.takeContext(role, atMs, line);
          fate = 'context';
          break;
        case 'line':
          this.matchedRule = role.index;
          return this.makeEvents(role.rule, this.ownTime(atMs, line), line);
        case 'guiding':
          return this.takeSample(role.rule, this.ownTime(atMs, line), line);
        case 'ignore':
          if (fate === 'context') return fate;
          this.matchedRule = role.index;
          return 'ignored';
      }
    }
    return fate;
  }

  private takeContext(role: Context, atMs: number, line: number): void {
    const { date } = this.dialect.time;
    if (role.kind === 'constant') {
      const value = this.values.captured('value');
      if (value !== undefined) this.values.constants.set(role.name, value);
    } else if (role.kind === 'section') {
      this.clock.startSection(this.values.captured('time') ?? atMs, role.section.base, line);
    } else if (role.kind === 'section-end') {
      this.clock.endSection();
    } else if (date.from === 'header') {
      this.clock.setDate(this.values.captured('date') ?? '', date.pattern, date.evening, line);
    }
  }

  /** What becomes of a row that no text rule took; a row that states something for others is a row nevertheless. */
  private rowFate(fate: Fate, text: string, atMs: number, line: number): Fate {
    if (this.rows === null || (fate !== 'unmatched' && fate !== 'context')) return fate;
    // What only states the date, say, is no row: it has no time of its own.
    if (fate === 'context' && !this.isTimedRow(this.rows, text, atMs, line)) return fate;
    const asRow = this.takeRow(this.rows, text, atMs, line);
    return asRow === 'unmatched' ? fate : asRow;
  }

  private isTimedRow(rows: RowSource, text: string, stampMs: number, line: number): boolean {
    if (!rows.takeRow(text)) return false;
    return !Number.isNaN(rows.timeInCells ? this.clock.readText(rows.time(), line) : stampMs);
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
    const ra = rule.ra.evaluate(lookup);
    const dec = rule.dec.evaluate(lookup);
    if (isWithin(ra, GUIDING_ARCSEC) && isWithin(dec, GUIDING_ARCSEC)) {
      const snr = rule.snr?.evaluate(lookup) ?? NaN;
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
