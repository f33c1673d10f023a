import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { plainWords } from '../lexicon/plain-words.js';

/** Begin and end of a filter change this close in score are undecided. */
const TIE = 0.5;
const IN_PLACE = 1.2;
/** `wheel at Ha`: the position of the wheel; a filter alone may be in place or only requested. */
const AT_FILTER =
  /\b(?:wheel|rueda|rad|filterrad|roue|ruota|roda|kolo|wiel|filterwiel|hjul\w*) (?:at|in|on|en|a|auf|steht auf|sur|su|em|na|op|staat op|pa)$/u;

/**
 * Lines that name the wheel and its current filter, in a log without another line about a change: the filter is in
 * place.
 */
export function filterInPlace(own: ReadonlyMap<Kind, Map<EventName, number>>): void {
  const changes = [...own.values()].filter((evidence) => evidence.has('filter-begin') || evidence.has('filter-end'));
  const sideOf = (evidence: ReadonlyMap<EventName, number>): number =>
    (evidence.get('filter-begin') ?? 0) - (evidence.get('filter-end') ?? 0);
  if (changes.some((evidence) => Math.abs(sideOf(evidence)) > TIE)) return;
  for (const [{ slots, wording }, evidence] of own) {
    const end = evidence.get('filter-end');
    const [front = ''] = wording.split('#');
    if (end !== undefined && slots.some(({ type }) => type === 'filter') && AT_FILTER.test(plainWords(front)))
      evidence.set('filter-end', end + IN_PLACE);
  }
}
