import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { wordEvidence } from '../lexicon/word-evidence.js';

/** What lines of numbered jobs may be: what brings a job up ends nothing, what says that it is over begins nothing. */
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
 * What the words of a job speak for by where they stand: `hold, cloud` begins as the job is brought up and ends with
 * it, `refocus, stars 3.1 px` begins though a log without jobs would state a size at the end.
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
