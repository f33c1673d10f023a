/** Exposures according to one train's log: begin, end or abort, and the resulting file. */
import { EXPOSURE_SECONDS, type LineTimes, type LogEvent, type Source, type Warning } from '../model/index.js';

/** An exposure in a log. Times on the log's clock, UTC ms. */
export interface LogExposure {
  readonly beginMs: number;
  readonly endMs: number;
  /** Whether the log says when it ended; otherwise the end is begin plus requested length, or the next event. */
  readonly endKnown: boolean;
  readonly askedMs?: number;
  readonly filter?: string;
  readonly target?: string;
  readonly file?: string;
  readonly savedMs?: number;
  readonly aborted: boolean;
  /** It ended in full, and the log says that no file was written of it. */
  readonly notSaved?: boolean;
  /** The log's reason for the abort. */
  readonly abortWhy?: string;
  readonly sources: readonly Source[];
  /** The dialect rule that made its begin; absent if the log states none, or needs no dialect. */
  readonly rule?: Source;
}

/** When logs end: the latest instant of any line, UTC ms; `undefined` for none. */
export function endOfLog(times: readonly LineTimes[]): number | undefined {
  let untilMs: number | undefined;
  for (const { atMs } of times) for (const ms of atMs) if (untilMs === undefined || ms > untilMs) untilMs = ms;
  return untilMs;
}

interface Draft {
  beginMs: number;
  endMs?: number;
  askedMs?: number;
  filter?: string;
  target?: string;
  file?: string;
  savedMs?: number;
  aborted: boolean;
  notSaved?: boolean;
  abortWhy?: string;
  sources: Source[];
  readonly rule?: Source;
}

/**
 * Reads the exposures out of one train's events.
 *
 * @param events one train's, sorted by time
 * @param untilMs when its log ends, UTC ms
 */
export function logExposures(
  events: readonly LogEvent[],
  untilMs = events.at(-1)?.atMs,
): { exposures: LogExposure[]; warnings: Warning[] } {
  const warnings: Warning[] = [];
  const drafts: Draft[] = [];
  let open: Draft | undefined;
  let filter: string | undefined;
  let target: string | undefined;

  const close = (endMs: number | undefined): void => {
    if (open) open.endMs = endMs;
    open = undefined;
  };

  for (const event of events) {
    switch (event.event) {
      case 'filter-end':
      case 'filter-begin':
        filter = event.to ?? filter;
        break;
      case 'exposure-begin': {
        if (open) close(undefined);
        target = event.target ?? target;
        filter = event.filter ?? filter;
        open = {
          beginMs: event.atMs,
          askedMs: toMs(event.seconds),
          filter,
          target,
          aborted: false,
          abortWhy: undefined,
          sources: [event.source],
          rule: event.rule,
          file: undefined,
          endMs: undefined,
          savedMs: undefined,
        };
        drafts.push(open);
        break;
      }
      case 'exposure-end':
      case 'exposure-abort': {
        const aborted = event.event === 'exposure-abort' || event.ok === false;
        if (!open) {
          const seconds = toMs(event.seconds);
          const ended = seconds === undefined && aborted ? unsaved(drafts, event.atMs) : undefined;
          if (ended) {
            ended.notSaved = true;
            ended.abortWhy = event.why;
            ended.sources.push(event.source);
            break;
          }
          if (seconds === undefined) {
            warnings.push(lonely(event, 'exposure-begin'));
            break;
          }
          // A log that reports only end and length still implies the begin.
          open = {
            beginMs: event.atMs - seconds,
            askedMs: seconds,
            filter: event.filter ?? filter,
            target: event.target ?? target,
            aborted,
            abortWhy: undefined,
            sources: [],
            rule: undefined,
            file: undefined,
            endMs: undefined,
            savedMs: undefined,
          };
          drafts.push(open);
        }
        open.aborted = aborted;
        if (aborted) open.abortWhy = event.why;
        open.file = event.file ?? open.file;
        open.sources.push(event.source);
        close(event.atMs);
        break;
      }
      case 'frame-saved': {
        if (event.file === undefined) break;
        const draft = awaitingFile(drafts);
        if (!draft) {
          warnings.push(lonely(event, 'exposure-begin'));
          break;
        }
        if (draft === open) close(undefined);
        draft.file = event.file;
        draft.savedMs = event.atMs;
        draft.sources.push(event.source);
        break;
      }
      default:
        break;
    }
  }
  return { exposures: drafts.map((draft, i) => finish(draft, drafts[i + 1], untilMs)), warnings };
}

/** A failure is reported within this of the shutter's end. Common practice, no source. */
const SAVING_MS = 120_000;

/** The exposure that had ended in full when something failed: its file was not written. */
function unsaved(drafts: readonly Draft[], atMs: number): Draft | undefined {
  const last = drafts.at(-1);
  if (last?.endMs === undefined || last.savedMs !== undefined || last.aborted) return undefined;
  return atMs - last.endMs <= SAVING_MS ? last : undefined;
}

/**
 * The exposure of a saved file: the oldest of the last few that ended and has none; saving may be late. Some programs
 * save aborted exposures, too: the last one, if no other waits for its file.
 */
function awaitingFile(drafts: readonly Draft[]): Draft | undefined {
  const recent = drafts.slice(-3).filter((d) => d.file === undefined && !d.aborted);
  const last = drafts.at(-1);
  const abortedLast = last?.aborted === true && last.file === undefined ? last : undefined;
  return recent.find((d) => d.endMs !== undefined) ?? recent[0] ?? abortedLast;
}

function finish(draft: Draft, next: Draft | undefined, untilMs: number | undefined): LogExposure {
  const byAsked = draft.askedMs === undefined ? undefined : draft.beginMs + draft.askedMs;
  const latest = Math.min(next?.beginMs ?? Infinity, draft.savedMs ?? Infinity);
  const guess = byAsked ?? (Number.isFinite(latest) ? latest : (untilMs ?? draft.beginMs));
  // A begin and an end days apart do not belong to one exposure: the events in between are missing.
  const longestMs = draft.beginMs + EXPOSURE_SECONDS.to * 1000;
  const isOne = draft.endMs === undefined || draft.endMs <= longestMs;
  const endMs = Math.min(draft.endMs ?? Math.min(guess, latest), isOne ? longestMs : draft.beginMs);
  return {
    beginMs: draft.beginMs,
    endMs: Math.max(draft.beginMs, endMs),
    endKnown: draft.endMs !== undefined && isOne,
    askedMs: draft.askedMs,
    filter: draft.filter,
    target: draft.target,
    file: draft.file,
    savedMs: draft.savedMs,
    aborted: draft.aborted,
    notSaved: (draft.notSaved === true && draft.savedMs === undefined) || undefined,
    abortWhy: draft.abortWhy,
    sources: draft.sources,
    rule: draft.rule,
  };
}

function lonely(event: LogEvent, missing: string): Warning {
  return {
    code: 'unpaired-event',
    message: `${event.event} has no ${missing} before it; the log may have been cut here`,
    source: event.source,
  };
}

function toMs(seconds: number | undefined): number | undefined {
  return seconds !== undefined && Number.isFinite(seconds) && seconds >= 0 ? Math.round(seconds * 1000) : undefined;
}
