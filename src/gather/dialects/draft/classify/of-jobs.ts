import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { wordEvidence } from '../lexicon/word-evidence.js';

/**
 * Restricts the events of lines about numbered jobs: the line that introduces a job ends nothing, one that finishes it
 * begins nothing.
 */
export function ofJob({ ofJob: job }: Kind): readonly EventName[] | undefined {
  switch (job?.part) {
    case 'begun':
      return EVENT_NAMES.filter((event) => beginOf(event) === undefined);
    case 'over':
      return EVENT_NAMES.filter((event) => endOf(event) === undefined);
    case 'cut':
      return EVENT_NAMES.filter((event) => endOf(event) === undefined && event !== 'exposure-end');
    default:
      return undefined;
  }
}

/**
 * The evidence of a job's words depends on their position: `hold, cloud` begins when the job is introduced and ends
 * with it; `refocus, stars 3.1 px` begins, although a log without jobs would state a size at the end.
 */
export function saidOfJob({ ofJob: job, wording, lead }: Kind): Map<EventName, number> {
  if (job?.part !== 'begun' && job?.part !== 'over') return new Map();
  const said = wordEvidence(wording, '', lead);
  const other = job.part === 'begun' ? beginOf : endOf;
  return new Map(
    [...wordEvidence(job.about ?? wording, '', job.about === undefined ? lead : 0)].flatMap(
      ([event, value]): [EventName, number][] => {
        const meant = other(event);
        return meant === undefined || said.has(meant) ? [] : [[meant, value]];
      },
    ),
  );
}
