import { beginOf, EVENT_NAMES, type EventName } from '../../../model/index.js';
import type { Candidate } from './classify/classify.js';
import { isWritten, type ExposureSpans } from './exposures/exposure-spans.js';
import type { Kind } from './kinds/kind.js';
import type { Part, Ranged } from './kinds/parts.js';
import { asTitled, type TitledTimes } from './kinds/titled-times.js';

const SAVED: readonly EventName[] = ['frame-saved'];
/** What the third time of a row cannot be. */
const BESIDE_RANGE: readonly EventName[] = EVENT_NAMES.filter((event) => !event.startsWith('exposure'));
/** What can be said of a time that is ahead: that it is when something will be, or was, over. */
const ENDS: readonly EventName[] = EVENT_NAMES.filter((event) => beginOf(event) !== undefined);
/** Nothing else comes so soon after each exposure that has a file. */
const WRITTEN = 6;
const NEARLY_ALL = 0.9;

/**
 * A time that lines state besides their own, as a candidate. A row that states both ends of a thing states a third time
 * besides: when what came of it was saved, say.
 */
export function partCandidate(
  part: Part,
  parts: readonly Part[],
  exposures: ExposureSpans,
  ranges: ReadonlyMap<Kind, Ranged>,
  titled: ReadonlyMap<Kind, TitledTimes>,
): Candidate {
  const { kind, whole } = part;
  const named = titled.get(whole)?.others.get(part.slot);
  if (named !== undefined) return { kind, ...asTitled(named) };
  if (isWritten(part, exposures, parts)) return { kind, only: SAVED, extra: new Map([['frame-saved', WRITTEN]]) };
  if (ranges.has(whole) || whole.exposure !== undefined) return { kind, only: BESIDE_RANGE };
  return isAhead(part, parts) ? { kind, only: ENDS } : { kind };
}

/** Whether the only time that lines state is later than their own: no line states when something will begin. */
function isAhead({ kind, whole }: Part, parts: readonly Part[]): boolean {
  const ahead = kind.atMs.filter((atMs, i) => atMs > (whole.atMs[i] ?? NaN) + 1000);
  return (
    ahead.length >= NEARLY_ALL * kind.atMs.length && parts.every((one) => one.kind === kind || one.whole !== whole)
  );
}
