import type { EventName } from '../../../../model/index.js';
import type { FrameTimes } from '../../check/agreement.js';
import { unusedOf } from '../choice.js';
import type { DraftReport } from '../report.js';
import type { LogSample } from '../sample.js';
import { clockOfFrames } from './clock-of-frames.js';
import type { NightOfFrames } from './read-beside.js';

/** A draft after its times were compared with the frames of the session. */
export interface JudgedByFrames {
  readonly report: DraftReport;
  /** The frames prove its times, or contradict them: nothing else has to. */
  readonly isSettled: boolean;
}

/**
 * The draft with the clock that the frames prove. Where they contradict it whatever is tried, its times are left out:
 * wrong ones are worse than none. Where lines begin with the frames, but not those that the draft takes for
 * beginnings, its exposures are left out.
 */
export function judgedByFrames(
  sample: LogSample,
  report: DraftReport,
  frames: readonly FrameTimes[],
  night: NightOfFrames,
): JudgedByFrames {
  const verdict = clockOfFrames(sample, report, frames, night);
  switch (verdict.kind) {
    case 'unknown':
      return { report, isSettled: false };
    case 'proved': {
      const { pairs, possible } = verdict;
      const { clockDoubts: _, ...whole } = verdict.report;
      return { report: { ...whole, orderIsOpen: false, provedBy: { pairs, possible } }, isSettled: true };
    }
    case 'contradicted':
      return {
        report: {
          ...report,
          clockDoubts: [
            `${agreed(verdict)}, whatever zone, date and unit are tried; or these are not the frames of this log`,
          ],
        },
        isSettled: true,
      };
    case 'other-lines': {
      const sign = `${agreed(verdict)}, though other lines begin with the frames: no exposures are read until you say which lines open the shutter`;
      return { report: { ...withoutExposures(report), signsOfWrong: [sign] }, isSettled: true };
    }
  }
}

function agreed({ pairs, possible }: { readonly pairs: number; readonly possible: number }): string {
  return `only ${pairs} of the ${possible} exposures that could begin when a frame does do so`;
}

const OF_EXPOSURES: ReadonlySet<EventName> = new Set(['exposure-begin', 'exposure-end', 'exposure-abort']);

/** The draft without the rules that make exposures: their lines are left for the user to decide. */
function withoutExposures(report: DraftReport): DraftReport {
  const own = report.rules.filter(({ events }) => events.some(({ event }) => OF_EXPOSURES.has(event)));
  const offered = own.map(({ kind, choice, events }) => ({
    ...unusedOf(
      kind,
      choice,
      events.map(({ event }) => event),
    ),
    doubt: 'it does not agree with the frames',
  }));
  return {
    ...report,
    rules: report.rules.filter((rule) => !own.includes(rule)),
    unused: [...offered, ...report.unused],
  };
}
