import { counted, increment, type LogEvent } from '../../../model/index.js';
import type { CheckReport } from '../check/check.js';
import { guidingCheck } from '../check/guiding-check.js';
import type { Contradiction } from '../check/contradictions.js';
import type { DraftReport, DraftRule } from './report.js';

/** A rule this far ahead of the next best event is certain. */
const SURE_MARGIN = 0.6;
/** Events with this fraction of contradictions are not certain. */
const DISPUTED = 0.1;
const MIN_DISPUTED = 3;

/** What is certain in a draft and what to check, based on a check of the log it was made from. */
export function draftSummary(report: DraftReport, { lines, read, contradictions }: CheckReport): string[] {
  const disputed = disputedEvents(read.events, contradictions);
  const isSure = ({ margin, events }: DraftRule): boolean =>
    margin >= SURE_MARGIN && !events.some(({ event }) => disputed.has(event));
  const sure = report.rules.filter(isSure).length;
  const unsure = report.rules.filter((rule) => !isSure(rule));
  const guiding = read.guiding === undefined ? null : guidingCheck(read.guiding);
  const samplesAlone = report.rules.length === 0 && guiding !== null;
  const share = (part: number): string => `${((100 * part) / Math.max(1, lines.all)).toFixed(0)} %`;
  return [
    ...(samplesAlone
      ? []
      : [
          `read by this draft, ${lines.all < 0.9 * report.totalLines ? `the first ${lines.all} lines give` : 'the log gives'} ${read.events.length} events; ${share(lines.unmatched)} of these lines are left over`,
        ]),
    ...(guiding === null
      ? []
      : [
          `guiding: ${guiding.samples} samples, one every ${guiding.cadenceSeconds.toFixed(1)} s, ${guiding.rmsArcsec.toFixed(2)}″ RMS`,
        ]),
    ...(report.guiding?.scale === 'missing'
      ? ['look at: "scale", the arcseconds per pixel of the guide camera, is not in the log']
      : []),
    ...(samplesAlone
      ? []
      : [
          `sure: ${sure} of ${report.rules.length} rules${unsure.length === 0 ? '' : `; look at: ${unsure.map(({ events }) => events.map(({ event }) => event).join(' and ')).join(', ')}`}`,
          ...takenBack(report),
          contradictions.length === 0
            ? 'nothing in it contradicts itself'
            : `look at: ${counted(contradictions.length, 'contradiction')}, the first on line ${contradictions[0]?.source.line ?? 0} (${contradictions[0]?.message ?? ''})`,
        ]),
  ];
}

/** The verdict on a draft that is probably wrong as a whole; nothing about others. */
export function draftVerdict({ clockDoubts, signsOfWrong }: DraftReport): string[] {
  if (clockDoubts !== undefined)
    return [
      `THE CLOCK OF THIS LOG IS NOT UNDERSTOOD: ${clockDoubts.join('; ')}`,
      'look at: "time" in the draft, which leaves its times out; compare with your frames (--session FOLDER)',
    ];
  if (signsOfWrong === undefined) return [];
  return [
    `THIS DRAFT IS PROBABLY WRONG AS A WHOLE: ${signsOfWrong.join('; ')}`,
    'look first at its times, and where exposures begin and end; compare with your frames (--session FOLDER)',
  ];
}

/** What the draft has withdrawn. */
function takenBack({ unused }: DraftReport): string[] {
  const doubted = unused.filter(({ doubt }) => doubt !== undefined);
  const names = [...new Set(doubted.flatMap(({ nearest: [first] }) => first ?? []))];
  return doubted.length === 0
    ? []
    : [`look at: ${counted(doubted.length, 'rule')} taken back that the night contradicts: ${names.join(', ')}`];
}

/** The events with too many contradictions for any of their rules to be certain. */
function disputedEvents(events: readonly LogEvent[], contradictions: readonly Contradiction[]): Set<string> {
  const counts = new Map<string, number>();
  for (const { kind, event } of contradictions) if (kind !== 'time-steps-back') increment(counts, event);
  return new Set(
    [...counts].flatMap(([name, count]) => {
      const all = events.filter(({ event }) => event === name).length;
      return count >= MIN_DISPUTED && count > DISPUTED * all ? [name] : [];
    }),
  );
}
