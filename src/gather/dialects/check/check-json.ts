import { saidBy, type LogEvent } from '../../../model/index.js';
import type { CheckReport } from './check.js';
import { guidingCheck } from './guiding-check.js';

/** The output of `dialect check --json`: part of the contract. */
export interface CheckJson {
  /** In chronological order; `at` is RFC 3339 in UTC, the other fields are as in the event log. */
  readonly events: readonly (Readonly<Record<string, unknown>> & { readonly at: string; readonly event: string })[];
  /** `null` when the log has no guiding samples. */
  readonly guiding: { readonly samples: number; readonly rmsArcsec: number; readonly cadenceSeconds: number } | null;
  /** Counts of lines that yielded something, lines ignored on purpose, and unmatched lines. */
  readonly coverage: { readonly matched: number; readonly ignored: number; readonly unmatched: number };
}

/** The result of a check as plain data. */
export function checkJson({ lines, read }: CheckReport): CheckJson {
  const guiding = read.guiding === undefined ? null : guidingCheck(read.guiding);
  return {
    events: inTime(read.events).map(eventRow),
    guiding:
      guiding === null
        ? null
        : { samples: guiding.samples, rmsArcsec: guiding.rmsArcsec, cadenceSeconds: guiding.cadenceSeconds },
    coverage: {
      matched: lines.events + lines.sample + lines.context,
      ignored: lines.ignored,
      unmatched: lines.unmatched + lines.unusable,
    },
  };
}

/** The events of a log in nightledger's own event log format, one JSON object per line. */
export function eventLogText(events: readonly LogEvent[]): string {
  return inTime(events)
    .map((event) => `${JSON.stringify(eventRow(event))}\n`)
    .join('');
}

function eventRow(read: LogEvent): CheckJson['events'][number] {
  const { atMs, event, ...facts } = saidBy(read);
  return { at: new Date(atMs).toISOString(), event, ...facts };
}

/** In chronological order; simultaneous events in line order. Instants outside any calendar are left out. */
function inTime(events: readonly LogEvent[]): LogEvent[] {
  return events.filter(({ atMs }) => Math.abs(atMs) <= 8.64e15).sort((a, b) => a.atMs - b.atMs);
}
