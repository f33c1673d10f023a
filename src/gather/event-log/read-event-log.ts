import {
  bareEvent,
  clipped,
  EARLIEST_YEAR,
  FORMER_EVENTS,
  isEventName,
  isPlausibleInstant,
  isTelling,
  type JsonObject,
  LATEST_YEAR,
  type LineTimes,
  type LogEvent,
} from '../../model/index.js';
import { fieldExpectation, isFieldName, setField } from '../lines/event-fields.js';
import type { LogRead } from '../lines/log-read.js';
import { blockTexts, lineEnd, lineStart, readLines, type LineBlock } from '../lines/read-lines.js';
import { rfc3339 } from '../lines/rfc3339.js';
import { WarningTally } from '../lines/warning-tally.js';
import { excerpt, inJson, parseObject, timeOfPlainNote } from './json-line.js';

/** The rig file's facts on an event log. */
export interface EventLogOptions {
  /** The train whose log this is; an event that names its own train keeps that. */
  readonly train?: string;
  /** `'times'`: notes are no events, and only in `LogRead.times`. */
  readonly notes?: 'events' | 'times';
}

/**
 * Reads nightledger's own event log: JSON Lines, one event per line. The format is described in docs/event-log.md. Any
 * size, in memory proportional to the events; never throws: a broken line costs that line and a warning.
 *
 * @param rootDir the session folder
 * @param relativePath the log, relative to it, with forward slashes
 */
export async function readEventLog(
  rootDir: string,
  relativePath: string,
  options: EventLogOptions = {},
): Promise<LogRead> {
  const tally = new WarningTally(relativePath);
  const reader = new EventLines(relativePath, options, tally);
  const file = await readLines(rootDir, relativePath, 'auto', tally, (block) => reader.take(block));
  return {
    events: reader.events,
    times: reader.times(),
    understood: reader.understood,
    ...file,
    warnings: tally.list(),
  };
}

class EventLines {
  readonly events: LogEvent[] = [];
  understood = 0;
  private readonly atMs = new Map<string | undefined, number[]>();
  private readonly train: string | undefined;
  private readonly keepsNotes: boolean;

  constructor(
    private readonly file: string,
    { train, notes = 'events' }: EventLogOptions,
    private readonly tally: WarningTally,
  ) {
    this.train = train;
    this.keepsNotes = notes === 'events';
  }

  /** When the lines were written that hold an event or a note. */
  times(): LineTimes[] {
    return [...this.atMs].map(([train, atMs]) => ({ file: this.file, train, atMs }));
  }

  take(block: LineBlock): void {
    const textOf = blockTexts(block);
    for (let i = 0; i < block.count; i++) {
      const start = lineStart(block, i);
      const end = lineEnd(block, i);
      if (end === start) continue;
      const text = textOf(start, end);
      const open = block.openEnded && i === block.count - 1;
      this.takeLine(text, block.firstLine + i, open);
    }
  }

  private takeLine(text: string, line: number, openEnded: boolean): void {
    if (!this.keepsNotes && this.takePlainNote(text)) return;
    const json = parseObject(text);
    if (json === null) {
      if (text.trim() === '') return;
      if (openEnded)
        this.tally.add(
          'unfinished-line',
          line,
          () => `Line ${line}, the last, is incomplete; the log may still have been written to. It was left out.`,
        );
      else
        this.tally.add(
          'broken-line',
          line,
          () => `Line ${line} is not a JSON object and was left out: ${excerpt(text)}`,
        );
      return;
    }
    const atMs = typeof json.at === 'string' ? rfc3339(json.at) : NaN;
    if (Number.isNaN(atMs)) {
      this.tally.add(
        'unreadable-time',
        line,
        () =>
          `Line ${line} was left out: "at" must be a time with offset such as "2026-10-14T19:42:10.250Z", ` +
          `not ${inJson(json.at)}.`,
      );
      return;
    }
    if (!isPlausibleInstant(atMs)) {
      this.tally.add(
        'absurd-time',
        line,
        () =>
          `Line ${line} was left out: "at" must lie in the years ${EARLIEST_YEAR} to ${LATEST_YEAR}, ` +
          `not ${inJson(json.at)}.`,
      );
      return;
    }
    if (typeof json.event !== 'string') {
      this.tally.add(
        'no-event',
        line,
        () => `Line ${line} was left out: "event" must name the event, such as "exposure-begin".`,
      );
      return;
    }
    const train = this.trainOf(json, line);
    const former = FORMER_EVENTS.get(json.event);
    const known = former ?? (isEventName(json.event) ? json.event : null);
    const made = bareEvent(known ?? 'note', atMs, train, { file: this.file, line });
    this.fill(made, json, line);
    if (known !== null) this.understood++;
    if (former !== undefined) {
      const name = excerpt(json.event);
      this.tally.add(
        'former-name',
        line,
        () => `Line ${line}: the event ${name} is now called ${former} and was read as such.`,
        name,
      );
    } else if (known === null) {
      const name = excerpt(json.event);
      this.tally.add(
        'unknown-event',
        line,
        () => `Line ${line}: the event ${name} is not known and was kept as a note.`,
        name,
      );
      const text = typeof json.text === 'string' ? `${clipped(json.event)}: ${json.text}` : json.event;
      setField(made, 'text', text);
    }
    if (this.keepsNotes || isTelling(made)) this.events.push(made);
    this.note(atMs, train);
  }

  /** Takes a line that is a plain note with a time that can be one. */
  private takePlainNote(text: string): boolean {
    const at = timeOfPlainNote(text);
    const atMs = at === undefined ? NaN : rfc3339(at);
    if (!isPlausibleInstant(atMs)) return false;
    this.understood++;
    this.note(atMs, this.train);
    return true;
  }

  /** That a line was written, and when. */
  private note(atMs: number, train: string | undefined): void {
    const written = this.atMs.get(train);
    if (written) written.push(atMs);
    else this.atMs.set(train, [atMs]);
  }

  /** Gives the event the fields of the line. */
  private fill(made: LogEvent, json: JsonObject, line: number): void {
    for (const key in json) {
      if (key === 'at' || key === 'event' || key === 'train') continue;
      const value = json[key];
      if (value === null) continue;
      if (!isFieldName(key)) {
        const name = excerpt(key);
        this.tally.add(
          'unknown-field',
          line,
          () => `Line ${line}: the field ${name} is not known and was not used.`,
          name,
        );
        continue;
      }
      const outcome = setField(made, key, value);
      if (outcome === 'unfit') {
        this.tally.add(
          'wrong-field',
          line,
          () =>
            `Line ${line}: "${key}" must be ${fieldExpectation(key)}, not ${inJson(value)}; ` +
            'the field was dropped, the event kept.',
          key,
        );
      } else if (outcome === 'foreign') {
        this.tally.add(
          'unknown-field',
          line,
          () => `Line ${line}: the event ${made.event} has no field "${key}"; it was not used.`,
          `${made.event} ${key}`,
        );
      }
    }
  }

  private trainOf(json: JsonObject, line: number): string | undefined {
    const own = json.train;
    if (own === undefined || own === null) return this.train;
    if (typeof own === 'string' && own !== '') return clipped(own);
    this.tally.add(
      'wrong-field',
      line,
      () =>
        `Line ${line}: "train" must be a train's id from the rig file, not ${inJson(own)}; ` +
        'the field was dropped, the event kept.',
      'train',
    );
    return this.train;
  }
}
