import { groupBy, type EventName, type LogEvent } from '../../../../model/index.js';
import { BlockSplitter } from '../../../lines/block-splitter.js';
import type { LineBlock } from '../../../lines/read-lines.js';
import { WarningTally } from '../../../lines/warning-tally.js';
import { baseSearch } from '../../base-below.js';
import { dateOfLine } from '../../date-below.js';
import { DialectReader } from '../../dialect-reader.js';
import { loadDialect } from '../../load.js';
import type { CompiledDialect } from '../../compiled.js';
import { makeClock, type DialectLogOptions } from '../../read-dialect-log.js';
import type { DraftReport, DraftRule } from '../report.js';
import type { LogSample } from '../sample.js';
import { writeDraft } from '../write-draft.js';

/** An event that a draft derives from a line. */
export interface DraftedEvent {
  readonly event: LogEvent;
  /** Index of its rule in the draft. */
  readonly rule: number;
}

/** What a draft derives from the lines it was made from. */
export interface DraftedNight {
  readonly rules: readonly DraftRule[];
  /** In chronological order. */
  readonly drafted: readonly DraftedEvent[];
}

/** An event of a rule that is impossible, and what contradicts it. */
export interface Doubt {
  readonly rule: number;
  readonly event: EventName;
  /** The text for the draft: a clause in the present tense. */
  readonly why: string;
  /** What the rule's lines report instead, if it is the likeliest event that is left. */
  readonly instead?: readonly EventName[];
}

/** Finds impossible events, regardless of the words of the log. */
export type Audit = (night: DraftedNight) => readonly Doubt[];

/** A placeholder evening and zone for logs that state none: only the order of times matters here. */
const SOME_NIGHT = { zone: 'UTC', sessionDate: '2026-10-14' } as const;

/** A backward step of about an hour, ms: the end of summer time, for which the site's zone would be needed. */
const HOUR_MS = 3_600_000;
const NEARLY_MS = 900_000;

/** What a sample was last read as, and the dialect it was read by. */
interface LastReading {
  readonly text: string;
  /** Whether the dialect can be used. */
  readonly isUsable: boolean;
  readonly drafted: readonly DraftedEvent[] | null;
  readonly dialect: CompiledDialect | null;
}

/** The verdict on a draft reads the sample as the last audit did: to load and read took a fifteenth of drafting. */
const lastReadings = new WeakMap<LogSample, LastReading>();

/**
 * Reads the sample with its draft; `null` if the draft has no rules or no time, or if the clock is set back, which
 * would repeat an hour.
 */
export function readByDraft(sample: LogSample, report: DraftReport): DraftedNight | null {
  const { rules, stamp } = report;
  if (rules.length === 0 || stamp === null) return null;
  const text = withoutUnused(report);
  let last = lastReadings.get(sample);
  if (last?.text !== text) {
    last = { text, ...readBy(sample, report.file, text) };
    lastReadings.set(sample, last);
  }
  return last.drafted === null ? null : { rules, drafted: last.drafted };
}

/** Whether the sample was last read with this very draft: then it can be used, and need not be loaded to find out. */
export function wasReadBy(sample: LogSample, report: DraftReport): boolean {
  const last = lastReadings.get(sample);
  return last?.isUsable === true && last.text === withoutUnused(report);
}

function withoutUnused(report: DraftReport): string {
  const { provedBy: _, ...whole } = report;
  return writeDraft({ ...whole, unused: [] });
}

function readBy(sample: LogSample, file: string, text: string): Omit<LastReading, 'text'> {
  const { dialect } = loadDialect(file, text);
  if (dialect === null) return { isUsable: false, drafted: null, dialect };
  const events = readWith(sample, file, dialect, SOME_NIGHT);
  if (isSetBack(events)) return { isUsable: true, drafted: null, dialect };
  const ruleAt = new Map(dialect.lines.map(({ line }, i) => [line, i]));
  const drafted = events.flatMap((event): DraftedEvent[] => {
    const rule = ruleAt.get(event.rule?.line ?? NaN);
    return rule === undefined ? [] : [{ event, rule }];
  });
  return { isUsable: true, drafted: drafted.sort((a, b) => a.event.atMs - b.event.atMs), dialect };
}

/** The events that a dialect reads in a sample; `null` if it cannot be used. */
export function eventsRead(
  sample: LogSample,
  file: string,
  text: string,
  night: DialectLogOptions,
): readonly LogEvent[] | null {
  const last = lastReadings.get(sample);
  const dialect = last?.text === text ? last.dialect : loadDialect(file, text).dialect;
  return dialect === null ? null : readWith(sample, file, dialect, night);
}

function readWith(
  sample: LogSample,
  file: string,
  dialect: CompiledDialect,
  night: DialectLogOptions,
): readonly LogEvent[] {
  const tally = new WarningTally(file);
  const dateOf = dateOfLine(dialect);
  const firstMs = dateOf === null ? NaN : sample.lines.map(dateOf).find((ms) => !Number.isNaN(ms));
  const takeAll = (take: (block: LineBlock) => void): void => {
    const splitter = new BlockSplitter(tally, take);
    splitter.push(Buffer.from(`${sample.lines.join('\n')}\n`));
    splitter.finish();
  };
  const search = baseSearch(dialect, file, (own) => makeClock(dialect, file, night, own, firstMs));
  if (search !== null) takeAll(search.take);
  const clock = makeClock(dialect, file, night, tally, firstMs, search?.found ?? null);
  const reader = new DialectReader(dialect, file, undefined, clock, tally, null);
  takeAll((block) => reader.take(block));
  reader.finish();
  return reader.events;
}

/** Whether line times step back by about an hour; derived events may precede their line. */
function isSetBack(events: readonly LogEvent[]): boolean {
  const ofLines = [...groupBy(events, ({ source: { line } }) => line).values()];
  const times = ofLines.map((own) => Math.max(...own.map(({ atMs }) => atMs)));
  return times.some((atMs, i) => Math.abs((times[i - 1] ?? NaN) - atMs - HOUR_MS) < NEARLY_MS);
}

/** The events with these names. */
export function named(drafted: readonly DraftedEvent[], ...names: readonly EventName[]): readonly DraftedEvent[] {
  return drafted.filter(({ event: { event } }) => names.includes(event));
}

/** The events grouped by rule and name. */
export function byRule(
  drafted: readonly DraftedEvent[],
): readonly { readonly rule: number; readonly event: EventName; readonly own: readonly DraftedEvent[] }[] {
  return [...groupBy(drafted, ({ rule, event: { event } }) => `${rule} ${event}`).values()].flatMap((own) => {
    const [first] = own;
    return first === undefined ? [] : [{ rule: first.rule, event: first.event.event, own }];
  });
}

/** The number of exposures: many logs yield only begins or only ends. */
export function exposureCount(drafted: readonly DraftedEvent[]): number {
  return Math.max(named(drafted, 'exposure-begin').length, named(drafted, 'exposure-end', 'exposure-abort').length);
}
