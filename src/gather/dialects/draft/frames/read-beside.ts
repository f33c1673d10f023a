import type { LogEvent } from '../../../../model/index.js';
import { eventsRead } from '../audit/drafted-night.js';
import type { DraftReport } from '../report.js';
import type { LogSample } from '../sample.js';
import { writeDraft } from '../write-draft.js';
import { quoted } from '../yaml-text.js';

/** What is known of the night beside its frames. */
export interface NightOfFrames {
  /** The site's IANA zone, if known. */
  readonly zone?: string;
  /** The evening's local date, `YYYY-MM-DD`. */
  readonly sessionDate?: string;
}

/** Beginnings and ends of exposures, and everything else that a draft reads, UTC ms, sorted. */
export interface ReadInstants {
  readonly begins: readonly number[];
  readonly ends: readonly number[];
  /** Of every line with a time, whatever it says. */
  readonly lines: readonly number[];
}

/** Makes a note of every line, or row with a time, that no rule matches. */
function everyLine({ layout }: DraftReport): string {
  if (layout?.kind === 'tables') return '';
  const [path] = layout?.time ?? [];
  const when = layout === null ? "'.'" : path === undefined ? null : `{ ${quoted(path)}: '.' }`;
  return when === null ? '' : `  - when: ${when}\n    event: note\n`;
}

/**
 * What a draft reads in the sample that it was made from, by the night of the frames. Times that the draft would leave
 * out are read as well.
 *
 * @param isOfEveryLine lines that no rule matches are among `lines` too
 */
export function readBeside(
  sample: LogSample,
  report: DraftReport,
  night: NightOfFrames,
  isOfEveryLine = false,
): ReadInstants {
  const { clockDoubts: _, provedBy: __, ...whole } = report;
  const text = writeDraft({ ...whole, unused: [] });
  const withNotes = isOfEveryLine && /\nlines:\n/.test(text) ? `${text.trimEnd()}\n${everyLine(report)}` : text;
  const events =
    eventsRead(sample, report.file, withNotes, night) ?? eventsRead(sample, report.file, text, night) ?? [];
  const sorted = (own: readonly LogEvent[]): number[] => own.map(({ atMs }) => atMs).sort((a, b) => a - b);
  return {
    begins: sorted(events.filter(({ event }) => event === 'exposure-begin')),
    ends: sorted(events.filter(({ event }) => event === 'exposure-end')),
    lines: sorted(events),
  };
}
