import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../model/index.js';
import type { Candidate } from './classify/classify.js';
import { ofJob } from './classify/of-jobs.js';
import { tookUnit } from './group-names.js';
import type { Kind } from './kinds/kind.js';
import type { Ranged } from './kinds/parts.js';
import { numberIn } from './kinds/values.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/** A filter wheel never repeatedly takes this long, s. */
const LONG = 20;
const MANY = 8;
const NEARLY_ALL = 0.9;
/** The part of a sentence that says from when to when. */
const LASTING: readonly EventName[] = EVENT_NAMES.filter(
  (event) => beginOf(event) !== undefined || endOf(event) !== undefined || event === 'frame-saved',
);

const OF_WHEEL: readonly EventName[] = ['filter-begin', 'filter-end'];
const READY: EventName = 'dither-ready';

/**
 * The events that a kind of line may report, given the lengths its lines state.
 *
 * @param own the events it may report in any case
 * @param range its lines state both ends
 */
export function allowed(kind: Kind, own?: readonly EventName[], range?: Ranged): Pick<Candidate, 'only'> {
  const among = (events: readonly EventName[]): EventName[] => events.filter((event) => own?.includes(event) !== false);
  if (range?.isWait === true) return { only: among([READY]) };
  if (isFilterAlone(kind)) return { only: among(OF_WHEEL) };
  const inSentence = range?.slot.path === null && range.slot.isFront !== true;
  // A span may be a wait for the dither.
  const lasting = (wordEvidence(kind.wording).get('dither-ready') ?? 0) > 0 ? [...LASTING, READY] : LASTING;
  const only = ofJob(kind)?.filter((event) => own?.includes(event) !== false) ?? (inSentence ? among(lasting) : own);
  if (!isLong(kind, range)) return only === undefined ? {} : { only };
  // Saving takes no minutes, and is the third time in such a row.
  const isSavedLater = range?.isEnd === true && kind.slots.some((one) => one !== range.slot && one.type === 'clock');
  return {
    only: (only ?? EVENT_NAMES).filter(
      (event) => !event.startsWith('filter') && !(isSavedLater && event === 'frame-saved'),
    ),
  };
}

/** Whether lines only state that a column of filters changed: devices beside it say what they do. */
function isFilterAlone({ wording, slots: [first] }: Kind): boolean {
  return first?.type === 'filter' && first.path === null && FILTER_CHANGED.test(wording);
}
const FILTER_CHANGED = / {2}[#·] → #$/u;

function isLong({ slots }: Kind, range: Ranged | undefined): boolean {
  const long = (seconds: readonly number[]): boolean =>
    seconds.length >= MANY && seconds.filter((one) => one >= LONG).length >= NEARLY_ALL * seconds.length;
  return (
    long((range?.tookMs ?? []).map((ms) => ms / 1000)) ||
    slots.some((slot) => {
      const unit = slot.type === 'number' ? tookUnit(slot) : null;
      return unit !== null && long(slot.perLine.map((value) => numberIn(value) * unit));
    })
  );
}
