import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../model/index.js';
import type { Candidate } from './classify/classify.js';
import { ofJob } from './classify/of-jobs.js';
import { tookUnit } from './group-names.js';
import type { Kind } from './kinds/kind.js';
import type { Ranged } from './kinds/parts.js';
import { numberIn } from './kinds/values.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/** No wheel takes this long again and again, s. */
const LONG = 20;
const MANY = 8;
const NEARLY_ALL = 0.9;
/** What a sentence tells from when to when. */
const LASTING: readonly EventName[] = EVENT_NAMES.filter(
  (event) => beginOf(event) !== undefined || endOf(event) !== undefined || event === 'frame-saved',
);

const READY: EventName = 'dither-ready';

/**
 * What a kind may be by the lengths that its lines state.
 *
 * @param own what it may be in any case
 * @param range its lines state both ends
 */
export function allowed(kind: Kind, own?: readonly EventName[], range?: Ranged): Pick<Candidate, 'only'> {
  const among = (events: readonly EventName[]): EventName[] => events.filter((event) => own?.includes(event) !== false);
  const inSentence = range?.slot.path === null && range.slot.isFront !== true;
  // What lasts may be a wait for the dither.
  const lasting = (wordEvidence(kind.wording).get('dither-ready') ?? 0) > 0 ? [...LASTING, READY] : LASTING;
  const only = ofJob(kind)?.filter((event) => own?.includes(event) !== false) ?? (inSentence ? among(lasting) : own);
  if (!isLong(kind, range)) return only === undefined ? {} : { only };
  // What is saved takes no minutes, and stands at the third time of such a row.
  const isSavedLater = range?.isEnd === true && kind.slots.some((one) => one !== range.slot && one.type === 'clock');
  return {
    only: (only ?? EVENT_NAMES).filter(
      (event) => !event.startsWith('filter') && !(isSavedLater && event === 'frame-saved'),
    ),
  };
}

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
