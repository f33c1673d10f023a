import { groupBy, type EventName, type LogEvent } from '../../../../model/index.js';
import { BlockSplitter } from '../../../lines/block-splitter.js';
import { WarningTally } from '../../../lines/warning-tally.js';
import { DialectReader } from '../../dialect-reader.js';
import { loadDialect } from '../../load.js';
import { makeClock } from '../../read-dialect-log.js';
import type { DraftReport, DraftRule } from '../report.js';
import type { LogSample } from '../sample.js';
import { writeDraft } from '../write-draft.js';

/** An event that a draft makes of a line. */
export interface DraftedEvent {
  readonly event: LogEvent;
  /** Its rule, by its place among those of the draft. */
  readonly rule: number;
}

/** What a draft makes of the lines that it was made from. */
export interface DraftedNight {
  readonly rules: readonly DraftRule[];
  /** In the order of their times. */
  readonly drafted: readonly DraftedEvent[];
}

/** An event of a rule that cannot be right, and what contradicts it. */
export interface Doubt {
  readonly rule: number;
  readonly event: EventName;
  /** What stands in the draft: a clause in the present. */
  readonly why: string;
}

/** Tells which events cannot be right, whatever the words of the log. */
export type Audit = (night: DraftedNight) => readonly Doubt[];

/** An evening and a zone for logs that print none: any will do where nothing but the order of times counts. */
const SOME_NIGHT = { zone: 'UTC', sessionDate: '2026-10-14' } as const;

/** A step back by about an hour, ms: the end of summer time, which only the site's zone could tell. */
const HOUR_MS = 3_600_000;
const NEARLY_MS = 900_000;

/**
 * Reads the sample by its draft; `null` where the draft has no rules or no time, or the clock is set back: then an hour
 * would come twice.
 */
export function readByDraft(sample: LogSample, report: DraftReport): DraftedNight | null {
  const { rules, file, stamp } = report;
  if (rules.length === 0 || stamp === null) return null;
  const { dialect } = loadDialect(file, writeDraft({ ...report, unused: [] }));
  if (dialect === null) return null;
  const tally = new WarningTally(file);
  const reader = new DialectReader(dialect, file, undefined, makeClock(dialect, file, SOME_NIGHT, tally), tally, null);
  const splitter = new BlockSplitter(tally, (block) => reader.take(block));
  splitter.push(Buffer.from(`${sample.lines.join('\n')}\n`));
  splitter.finish();
  reader.finish();
  if (isSetBack(reader.events)) return null;
  const ruleAt = new Map(dialect.lines.map(({ line }, i) => [line, i]));
  const drafted = reader.events.flatMap((event): DraftedEvent[] => {
    const rule = ruleAt.get(event.rule?.line ?? NaN);
    return rule === undefined ? [] : [{ event, rule }];
  });
  return { rules, drafted: drafted.sort((a, b) => a.event.atMs - b.event.atMs) };
}

/** Whether the times of lines step back by about an hour; a line's events may begin before it. */
function isSetBack(events: readonly LogEvent[]): boolean {
  const ofLines = [...groupBy(events, ({ source: { line } }) => line).values()];
  const times = ofLines.map((own) => Math.max(...own.map(({ atMs }) => atMs)));
  return times.some((atMs, i) => Math.abs((times[i - 1] ?? NaN) - atMs - HOUR_MS) < NEARLY_MS);
}

/** The events of these names. */
export function named(drafted: readonly DraftedEvent[], ...names: readonly EventName[]): readonly DraftedEvent[] {
  return drafted.filter(({ event: { event } }) => names.includes(event));
}

/** The events of one rule and one name, for all such. */
export function byRule(
  drafted: readonly DraftedEvent[],
): readonly { readonly rule: number; readonly event: EventName; readonly own: readonly DraftedEvent[] }[] {
  return [...groupBy(drafted, ({ rule, event: { event } }) => `${rule} ${event}`).values()].flatMap((own) => {
    const [first] = own;
    return first === undefined ? [] : [{ rule: first.rule, event: first.event.event, own }];
  });
}

/** How many exposures are told: of many logs one side alone is read. */
export function exposureCount(drafted: readonly DraftedEvent[]): number {
  return Math.max(named(drafted, 'exposure-begin').length, named(drafted, 'exposure-end', 'exposure-abort').length);
}
