import type { LogEvent } from '../../model/index.js';
import { blockText, lineEnd, lineStart, type LineBlock } from '../lines/read-lines.js';
import { SampleColumns } from '../lines/sample-columns.js';
import type { WarningTally } from '../lines/warning-tally.js';
import { CandidateFinder } from './candidates.js';
import type { CompiledDialect, GuidingRule, LineRule, SectionRule, When } from './compiled.js';
import { CsvRows } from './csv-rows.js';
import { EventMaker } from './event-maker.js';
import type { Lookup } from './formula.js';
import type { Captures, Pattern } from './pattern/pattern.js';
import type { LogClock } from './time/log-clock.js';

/** Patterns see this much of a line or entry: what follows is no log message. */
const MAX_TEXT = 64 * 1024;

/** What became of a line: it gave events, a guiding sample, something for other lines, or nothing. */
export type Fate = 'events' | 'sample' | 'context' | 'ignored' | 'unmatched';

/**
 * Told what became of every line or entry.
 *
 * @param line 1-based number of its first line
 * @param lines how many lines it has
 * @param text the text that the patterns saw: the line without its stamp
 * @param rule index of the rule in `lines` or `ignore`, −1 where there is none
 */
export type LineObserver = (line: number, lines: number, text: string, fate: Fate, rule: number) => void;

type Role =
  | { readonly kind: 'date'; readonly pattern: Pattern }
  | { readonly kind: 'constant'; readonly pattern: Pattern; readonly name: string }
  | { readonly kind: 'section'; readonly pattern: Pattern; readonly section: SectionRule }
  | { readonly kind: 'section-end'; readonly pattern: Pattern }
  | { readonly kind: 'line'; readonly pattern: Pattern; readonly rule: LineRule; readonly index: number }
  | { readonly kind: 'guiding'; readonly pattern: Pattern; readonly rule: GuidingRule }
  | { readonly kind: 'ignore'; readonly pattern: Pattern; readonly index: number };

type Context = Extract<Role, { kind: 'date' | 'constant' | 'section' | 'section-end' }>;

/** An entry of several lines while it is being gathered. */
interface Entry {
  text: string;
  readonly line: number;
  lines: number;
  readonly atMs: number;
  /** One of its lines gave something for others. */
  hasContext: boolean;
}

const NO_CAPTURES: ReadonlyMap<string, string> = new Map();

/** Turns the blocks of one log into events and guiding samples. */
export class DialectReader {
  readonly samples = new SampleColumns();
  understood = 0;
  private readonly maker: EventMaker;
  private readonly roles: readonly Role[];
  /** Numbers of the roles that are tried on whole entries, and of those that are tried on each of its lines. */
  private readonly entryRoles: Int32Array;
  private readonly contextRoles: Int32Array;
  private readonly finder: CandidateFinder;
  private readonly csv: CsvRows | null;
  private readonly constants = new Map<string, string | number>();
  private entry: Entry | null = null;
  private matchedRule = -1;

  // What the formulas and templates of the current line can look up.
  private captures: Captures = [];
  private groups: ReadonlyMap<string, number> = new Map();
  private cellCaptures: ReadonlyMap<string, string> | null = null;
  private readonly lookup: Lookup = (name) => this.valueOf(name);

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
    this.csv = dialect.csv === null ? null : new CsvRows(dialect.csv);
    for (const { name, initial } of dialect.constants) if (initial !== undefined) this.constants.set(name, initial);
  }

  get events(): readonly LogEvent[] {
    return this.maker.events;
  }

  take(block: LineBlock): void {
    if (this.dialect.entryStart !== null) {
      for (let i = 0; i < block.count; i++) this.takeEntryLine(block, i);
      return;
    }
    const everyLine = this.csv !== null || this.observer !== null || this.dialect.time.carry || this.clock.mustFollow(block);
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
    const after = this.csv === null || count > 0 ? this.clock.readLine(block.bytes, start, end, line) : -1;
    if (count === 0 && this.csv === null && this.observer === null) return;
    const from = this.csv !== null || this.dialect.time.anywhere || after < 0 ? start : after;
    const text = blockText(block, from, Math.min(end, from + MAX_TEXT)).trim();
    let fate = count === 0 ? 'unmatched' : this.takeText(text, line, this.timeOf(after), candidates, count);
    if (fate === 'unmatched' && this.csv !== null) fate = this.takeRow(this.csv, text, line);
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
    const hasContext = this.takeText(text.trim(), line, this.timeOf(after), this.contextRoles, this.contextRoles.length) === 'context';
    const { entryStart } = this.dialect;
    const starts = entryStart === 'stamp' ? after >= 0 : entryStart?.exec(text) !== null;
    if (this.entry !== null && !starts) {
      if (this.entry.text.length < MAX_TEXT) this.entry.text += `\n${text}`;
      this.entry.lines++;
      this.entry.hasContext ||= hasContext;
      return;
    }
    this.flushEntry();
    const message = after < 0 || this.dialect.time.anywhere ? text : blockText(block, after, Math.min(end, after + MAX_TEXT));
    this.entry = { text: message, line, lines: 1, atMs: this.timeOf(after), hasContext };
  }

  private flushEntry(): void {
    if (this.entry === null) return;
    const { text, line, lines, atMs, hasContext } = this.entry;
    this.entry = null;
    const message = text.slice(0, MAX_TEXT).trim();
    const fate = this.takeText(message, line, atMs, this.entryRoles, this.entryRoles.length);
    this.settle(line, lines, message, fate === 'unmatched' && hasContext ? 'context' : fate);
  }

  private settle(line: number, lines: number, text: string, fate: Fate): void {
    if (fate !== 'unmatched') this.understood += lines;
    this.observer?.(line, lines, text, fate, this.matchedRule);
    this.matchedRule = -1;
  }

  /** Tries the candidates in order. Context is taken from every pattern that matches, the rest from the first. */
  private takeText(text: string, line: number, atMs: number, candidates: Int32Array, count: number): Fate {
    let fate: Fate = 'unmatched';
    this.cellCaptures = null;
    for (let i = 0; i < count; i++) {
      const role = this.roles[candidates[i] ?? -1];
      const captures = role?.pattern.exec(text) ?? null;
      if (role === undefined || captures === null) continue;
      this.captures = captures;
      this.groups = role.pattern.groups;
      switch (role.kind) {
        case 'date': case 'constant': case 'section': case 'section-end':
          this.takeContext(role, atMs, line);
          fate = 'context';
          break;
        case 'line':
          this.matchedRule = role.index;
          this.makeEvents(role.rule, this.ownTime(atMs, line), line);
          return 'events';
        case 'guiding':
          this.takeSample(role.rule, this.ownTime(atMs, line), line);
          return 'sample';
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
      const value = this.captured('value');
      if (value !== undefined) this.constants.set(role.name, value);
    } else if (role.kind === 'section') {
      this.clock.startSection(this.captured('time') ?? atMs, role.section.base, line);
    } else if (role.kind === 'section-end') {
      this.clock.endSection();
    } else if (date.from === 'header') {
      this.clock.setDate(this.captured('date') ?? '', date.pattern, date.evening, line);
    }
  }

  private takeRow(csv: CsvRows, text: string, line: number): Fate {
    if (csv.takeHeader(text)) return 'context';
    if (!csv.takeRow(text)) return 'unmatched';
    const atMs = this.clock.readText(csv.time(), line);
    this.cellCaptures = NO_CAPTURES;
    for (const [index, rule] of this.dialect.lines.entries()) {
      if (!this.cellsMatch(csv, rule.when)) continue;
      this.matchedRule = index;
      this.makeEvents(rule, atMs, line);
      return 'events';
    }
    const { guiding } = this.dialect;
    if (guiding !== null && (guiding.when === null || this.cellsMatch(csv, guiding.when))) {
      this.takeSample(guiding, atMs, line);
      return 'sample';
    }
    const ignored = this.dialect.ignore.findIndex((rule) => this.cellsMatch(csv, rule.when));
    this.matchedRule = ignored;
    return ignored < 0 ? 'unmatched' : 'ignored';
  }

  private cellsMatch(csv: CsvRows, when: When): boolean {
    if (when.kind === 'text') return false;
    const caught = new Map<string, string>();
    for (const { column, pattern } of when.cells) {
      const captures = pattern.exec(csv.cell(column) ?? '');
      if (captures === null) return false;
      for (const [name, group] of pattern.groups) {
        const value = captures[group];
        if (value !== undefined) caught.set(name, value);
      }
    }
    this.cellCaptures = caught;
    return true;
  }

  private makeEvents(rule: LineRule, atMs: number, line: number): void {
    if (this.hasTime(atMs, line)) this.maker.make(rule, this.lookup, atMs, line);
  }

  private takeSample(rule: GuidingRule, atMs: number, line: number): void {
    if (!this.hasTime(atMs, line)) return;
    const ra = rule.ra.evaluate(this.lookup);
    const dec = rule.dec.evaluate(this.lookup);
    if (Number.isFinite(ra) && Number.isFinite(dec)) {
      this.samples.push(atMs, ra, dec, rule.snr?.evaluate(this.lookup) ?? NaN);
    } else {
      this.tally.add('unreadable-sample', line, () => `Line ${line} has no numbers for "ra" and "dec"; the sample was left out. Check the formulas of "guiding" and that their constants stand before.`);
    }
  }

  private hasTime(atMs: number, line: number): boolean {
    if (!Number.isNaN(atMs)) return true;
    this.tally.add('unreadable-time', line, () => `Line ${line} matches the dialect, but no time can be read from it; it was left out. Check "time.pattern", or set "time.carry" where lines share the time of one before.`);
    return false;
  }

  /** The time that a group `time` caught, else the line's. */
  private ownTime(atMs: number, line: number): number {
    const text = this.captured('time');
    return text === undefined ? atMs : this.clock.readText(text, line);
  }

  private captured(name: string): string | undefined {
    const group = this.groups.get(name);
    return group === undefined ? undefined : this.captures[group];
  }

  private valueOf(name: string): string | number | undefined {
    if (this.cellCaptures !== null) return this.cellCaptures.get(name) ?? this.csv?.cell(name) ?? this.constants.get(name);
    return this.captured(name) ?? this.constants.get(name);
  }
}

function isContext(role: Role | undefined): boolean {
  return role?.kind === 'date' || role?.kind === 'constant' || role?.kind === 'section' || role?.kind === 'section-end';
}

/** The dialect's patterns on whole lines, in the order they are tried. */
function rolesOf(dialect: CompiledDialect): Role[] {
  const { guiding, time: { date } } = dialect;
  const onText = (when: When | null): Pattern[] => (when?.kind === 'text' ? [when.pattern] : []);
  return [
    ...(date.from === 'header' ? [{ kind: 'date' as const, pattern: date.when }] : []),
    ...dialect.constants.flatMap(({ name, when }) => (when === null ? [] : [{ kind: 'constant' as const, pattern: when, name }])),
    ...dialect.sections.flatMap((section): Role[] => [
      ...(section.end === null ? [] : [{ kind: 'section-end' as const, pattern: section.end }]),
      { kind: 'section', pattern: section.begin, section },
    ]),
    ...dialect.lines.flatMap((rule, index) => onText(rule.when).map((pattern) => ({ kind: 'line' as const, pattern, rule, index }))),
    ...(guiding === null ? [] : onText(guiding.when).map((pattern) => ({ kind: 'guiding' as const, pattern, rule: guiding }))),
    ...dialect.ignore.flatMap(({ when }, index) => onText(when).map((pattern) => ({ kind: 'ignore' as const, pattern, index }))),
  ];
}
