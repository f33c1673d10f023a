import { beginOf, type EventName } from '../../../model/index.js';
import type { Candidate } from './classify/classify.js';
import { saidOfJob } from './classify/of-jobs.js';
import type { Kind } from './kinds/kind.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/**
 * Evidence besides words and values: that of the session's frames, of jobs, and, where lines are stamped before a time
 * that they state, that what they say is over then began.
 */
export function extraOf(
  kind: Kind,
  ofFrames: ReadonlyMap<EventName, number> | undefined,
  isFirst: boolean,
): Pick<Candidate, 'extra'> {
  const begun = isFirst ? begunBefore(kind) : [];
  if (ofFrames === undefined && kind.ofJob === undefined && begun.length === 0) return {};
  return { extra: new Map([...begun, ...saidOfJob(kind), ...(ofFrames ?? [])]) };
}

/** `Dither 2.2 px, done 18:41:47`: it began when the line was written. */
function begunBefore({ wording, lead }: Kind): [EventName, number][] {
  const [best] = [...wordEvidence(wording, '', lead)].sort((a, b) => b[1] - a[1]);
  const begin = best === undefined ? undefined : beginOf(best[0]);
  return best === undefined || begin === undefined || begin === 'exposure-begin' ? [] : [[begin, best[1]]];
}
