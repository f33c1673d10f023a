import type { LogEvent } from '../../model/index.js';
import { FIXED } from './fixed-columns.js';
import { blockText, lineEnd, lineStart, trimmedText, type LineBlock } from '../lines/read-lines.js';
import type { SampleColumns } from '../lines/sample-columns.js';
import type { WarningTally } from '../lines/warning-tally.js';
import { CandidateFinder } from './candidates.js';
import type { CompiledDialect } from './compiled.js';
import { Jobs } from './jobs.js';
import { StateMessages } from './state-messages.js';
import type { Fate } from './fate.js';
import { LineTaker } from './line-taker.js';
import { isContext } from './roles.js';
import type { LogClock } from './time/log-clock.js';

export type { Fate };

/** Patterns see this many characters of a line or entry: a log message is not longer. */
const MAX_TEXT = 64 * 1024;
/** A record that holds samples is read whole, up to the maximum line length. */
const MAX_RECORD = 1024 * 1024;
/** Separators between stamped messages of one line. */
const BETWEEN = /^[\s·•;,|/–—-]+|[\s·•;,|/–—-]+$/g;
/** Maximum number of stamps in one line. */
const MAX_STAMPS = 500;

/**
 * Notified of the fate of every line or entry.
 *
 * @param line 1-based number of its first line
 * @param lines its number of lines
 * @param text the text matched against the patterns: the line without its stamp
 * @param rule index of the rule in `lines` or `ignore`, −1 where there is none
 * @param table index of the table that it belongs to, where the log has several
 */
export type LineObserver = (
  line: number,
  lines: number,
  text: string,
  fate: Fate,
  rule: number,
  table: number | null,
) => void;

/** A multi-line entry while it is being collected. */
interface Entry {
  text: string;
  readonly line: number;
  lines: number;
  atMs: number;
  /** One of its lines set context for others. */
  hasContext: boolean;
}

/** Turns the blocks of one log into events and guiding samples. */
export class DialectReader {
  understood = 0;
  /** Lines matched by a rule, whether or not they could be interpreted. */
  matched = 0;
  private readonly taker: LineTaker;
  /** Numbers of the roles tried on whole entries, and of those tried on each line. */
  private readonly entryRoles: Int32Array;
  private readonly lineRoles: Int32Array;
  private readonly finder: CandidateFinder;
  private readonly allRoles: Int32Array;
  /** Makes warnings count what they omit. */
  private readonly jobs: Jobs | StateMessages | null;
  private entry: Entry | null = null;
  private readonly maxText: number;
  /** The line that may be repeated. */
  private first: string | null = null;

  constructor(
    private readonly dialect: CompiledDialect,
    file: string,
    train: string | undefined,
    private readonly clock: LogClock,
    tally: WarningTally,
    private readonly observer: LineObserver | null,
  ) {
    this.maxText = dialect.records?.form === 'json' ? MAX_RECORD : MAX_TEXT;
    this.taker = new LineTaker(dialect, file, train, clock, tally);
    const { roles } = this.taker;
    const ids = [...roles.keys()];
    this.allRoles = Int32Array.from(ids);
    const { jobs, stateLines } = dialect;
    this.jobs = jobs !== null ? new Jobs(jobs) : stateLines !== null ? new StateMessages(stateLines) : null;
    // Guiding samples may be in tables inside entries.
    const onLines = (id: number): boolean => isContext(roles[id]) || roles[id]?.kind === 'guiding';
    this.entryRoles = Int32Array.from(ids.filter((id) => !isContext(roles[id])));
    this.lineRoles = Int32Array.from(ids.filter(onLines));
    this.finder = new CandidateFinder(roles.map(({ pattern }) => pattern));
  }

  get events(): readonly LogEvent[] {
    return this.taker.events;
  }

  get samples(): SampleColumns {
    return this.taker.samples;
  }

  take(block: LineBlock): void {
    if (this.dialect.entryStart === 'stamps') {
      for (let i = 0; i < block.count; i++) if (!this.isSecond(block, i)) this.takeStampedParts(block, i);
      return;
    }
    if (this.dialect.entryStart !== null) {
      for (let i = 0; i < block.count; i++) if (!this.isSecond(block, i)) this.takeEntryLine(block, i);
      return;
    }
    const everyLine =
      this.taker.rows !== null ||
      this.jobs !== null ||
      this.observer !== null ||
      this.dialect.doubled ||
      this.dialect.time.carry ||
      this.clock.mustFollow(block);
    this.finder.forEach(block, everyLine, (i, candidates, count) => {
      if (!this.isSecond(block, i)) this.takeLine(block, i, candidates, count);
    });
  }

  /** Whether a line is the second copy in a log that repeats every line. */
  private isSecond(block: LineBlock, i: number): boolean {
    if (!this.dialect.doubled) return false;
    const text = blockText(block, lineStart(block, i), lineEnd(block, i));
    if (text === '') return false;
    const isSecond = text === this.first;
    this.first = isSecond ? null : text;
    if (isSecond) this.settle(block.firstLine + i, 1, text, 'ignored');
    return isSecond;
  }

  /** Finishes the last entry. */
  finish(): void {
    this.flushEntry();
  }

  private takeLine(block: LineBlock, i: number, candidates: Int32Array, count: number): void {
    const start = lineStart(block, i);
    const end = lineEnd(block, i);
    if (end === start) return;
    const line = block.firstLine + i;
    // A row's time is in its columns; the beginning of the line may only look like a stamp.
    const inCells = this.taker.rows?.timeInCells === true;
    const after = !inCells || count > 0 ? this.clock.readLine(block.bytes, start, end, line) : -1;
    if (count === 0 && this.taker.rows === null && this.jobs === null && this.observer === null) return;
    // Tabs at either end delimit empty cells.
    const keepsBlanks = this.dialect.csv?.some(({ delimiter }) => delimiter === '\t' || delimiter === FIXED) === true;
    const textOf = keepsBlanks ? blockText : trimmedText;
    const own = this.message(block, start, end, inCells ? -1 : after, textOf);
    const text = this.jobs?.take(own) ?? own;
    // The description of a job may match where the line alone does not.
    const roles = text === own ? candidates : this.allRoles;
    const tried = text === own ? count : roles.length;
    let fate: Fate = tried === 0 ? 'unmatched' : this.taker.takeText(text, line, this.timeOf(after), roles, tried);
    fate = this.taker.rowFate(fate, text, this.timeOf(after), line);
    this.settle(line, 1, text, fate);
  }

  /** The text of a line without its stamp, which ends at `after`; −1 where it has none. */
  private message(block: LineBlock, start: number, end: number, after: number, textOf = blockText): string {
    const { at } = this.dialect.time;
    const from = after < 0 || at !== 'start' ? start : after;
    const upTo = after < 0 || at !== 'end' ? end : this.clock.stampStart;
    return textOf(block, from, Math.min(upTo, from + this.maxText));
  }

  private timeOf(stampEnd: number): number {
    return stampEnd >= 0 || this.dialect.time.carry ? this.clock.nowMs : NaN;
  }

  private takeEntryLine(block: LineBlock, i: number): void {
    const start = lineStart(block, i);
    const end = lineEnd(block, i);
    if (end === start) return;
    const line = block.firstLine + i;
    const text = blockText(block, start, Math.min(end, start + this.maxText));
    const after = this.clock.readLine(block.bytes, start, end, line);
    // Dates, constants and sections are on single lines and apply from the next line on.
    const fate = this.taker.takeText(text.trim(), line, this.timeOf(after), this.lineRoles, this.lineRoles.length);
    if (fate === 'sample') {
      this.settle(line, 1, text.trim(), fate);
      return;
    }
    const hasContext = fate === 'context';
    const { entryStart } = this.dialect;
    const starts = entryStart === null || typeof entryStart === 'string' ? after >= 0 : entryStart.exec(text) !== null;
    if (this.entry !== null && !starts) {
      if (this.entry.text.length < this.maxText) this.entry.text += `\n${text}`;
      this.entry.lines++;
      if (after >= 0 && Number.isNaN(this.entry.atMs)) this.entry.atMs = this.timeOf(after);
      this.entry.hasContext ||= hasContext;
      return;
    }
    const own = { text: this.message(block, start, end, after), line, lines: 1, atMs: this.timeOf(after), hasContext };
    // The clock is still that of the entry that ends here.
    this.flushEntry();
    this.entry = own;
  }

  private flushEntry(): void {
    if (this.entry === null) return;
    const { text, line, lines, atMs, hasContext } = this.entry;
    this.entry = null;
    const own = text.slice(0, this.maxText).trim();
    const message = this.jobs?.take(own) ?? own;
    let fate: Fate = this.taker.takeText(message, line, atMs, this.entryRoles, this.entryRoles.length);
    fate = this.taker.rowFate(fate, message, atMs, line);
    this.settle(line, lines, message, fate === 'unmatched' && hasContext ? 'context' : fate);
  }

  /** A line in which every stamp begins a separate message. */
  private takeStampedParts(block: LineBlock, i: number): void {
    const start = lineStart(block, i);
    const end = lineEnd(block, i);
    if (end === start) return;
    const line = block.firstLine + i;
    const parts: { readonly begin: number; readonly after: number; readonly atMs: number }[] = [];
    let from = start;
    while (parts.length < MAX_STAMPS) {
      const after = this.clock.readLine(block.bytes, from, end, line);
      if (after < 0) break;
      parts.push({ begin: this.clock.stampStart, after, atMs: this.clock.nowMs });
      from = after;
    }
    if (parts.length === 0) {
      const text = blockText(block, start, Math.min(end, start + this.maxText)).trim();
      this.settle(line, 1, text, this.taker.takeText(text, line, NaN, this.lineRoles, this.lineRoles.length));
      return;
    }
    parts.forEach(({ after, atMs }, k) => {
      const upTo = parts[k + 1]?.begin ?? end;
      const text = blockText(block, after, Math.min(upTo, after + this.maxText)).replace(BETWEEN, '');
      const fate = this.taker.takeText(text, line, atMs, this.entryRoles, this.entryRoles.length);
      this.settle(line, k === 0 ? 1 : 0, text, fate);
    });
  }

  private settle(line: number, lines: number, text: string, fate: Fate): void {
    if (fate !== 'unmatched') this.matched += lines;
    if (fate !== 'unmatched' && fate !== 'unusable') this.understood += lines;
    const table = this.taker.tables?.index ?? null;
    this.observer?.(line, lines, text, fate, this.taker.matchedRule, table);
    for (const rule of this.taker.alsoMatched) this.observer?.(line, 0, text, fate, rule, table);
    this.taker.alsoMatched = [];
    this.taker.matchedRule = -1;
  }
}
