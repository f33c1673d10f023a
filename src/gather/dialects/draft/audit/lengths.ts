import { beginOf, endOf, groupBy, median, type EventName } from '../../../../model/index.js';
import { exposuresIn } from './drafted-exposures.js';
import { named, type Audit, type Doubt, type DraftedEvent } from './drafted-night.js';

/** Shortest and longest plausible median duration, s (common practice, no source). */
const LENGTHS: ReadonlyMap<EventName, readonly [number, number]> = new Map<EventName, readonly [number, number]>([
  ['exposure-begin', [0.2, 4000]],
  ['dither-begin', [0, 120]],
  ['settling-begin', [0.3, 300]],
  ['filter-begin', [0.3, 60]],
  ['focus-begin', [5, 1500]],
  ['slew-begin', [0.5, 600]],
  ['centre-begin', [1, 900]],
  ['flip-begin', [5, 1800]],
]);
const BY_TRAIN = /^(?:exposure|filter|focus)/;
const MIN_SPANS = 4;
/** Exposures with a median this much shorter than stated are not exposures. */
const MIN_EXPOSURES = 6;
const CUT = 0.7;
/** Maximum fraction of exposures that were aborted although their lines do not say so. */
const FEW = 0.15;
const MINUTE_MS = 60_000;

interface Span {
  readonly begun: DraftedEvent;
  readonly over: DraftedEvent;
  readonly seconds: number;
}

/** Spans with an implausibly short or long median. */
export const lengths: Audit = ({ drafted }) => {
  // With a clock of whole minutes every span may have length zero.
  if (drafted.every(({ event: { atMs } }) => atMs % MINUTE_MS === 0)) return [];
  const spans = groupBy(spansIn(drafted), ({ begun, over }) => `${begun.rule} ${over.rule} ${begun.event.event}`);
  const odd = [...spans.values()].flatMap((own): Doubt[] => {
    const [first] = own;
    if (first === undefined || own.length < MIN_SPANS) return [];
    const { begun, over } = first;
    const [least, most] = LENGTHS.get(begun.event.event) ?? [0, Infinity];
    const usual = median(own.map(({ seconds }) => seconds));
    if (usual >= least && usual <= most) return [];
    const why = `half of them take ${usual < least ? 'less' : 'more'} than ${Math.round(usual)} s`;
    return [
      { rule: begun.rule, event: begun.event.event, why },
      { rule: over.rule, event: over.event.event, why },
    ];
  });
  return [...odd, ...cutShort(drafted)];
};

/** Exposures of named trains that end long before their stated length. */
function cutShort(drafted: readonly DraftedEvent[]): readonly Doubt[] {
  if (named(drafted, 'exposure-end').length === 0) return [];
  // Rows of aborted exposures have their own rule.
  const all = exposuresIn(drafted);
  const stated = all.filter(({ train, seconds, isGivenUp }) => train !== undefined && seconds > 0 && !isGivenUp);
  return [...groupBy(stated, ({ rule }) => rule)].flatMap(([rule, own]): Doubt[] => {
    const part = median(own.map(({ startMs, endMs, seconds }) => (endMs - startMs) / 1000 / seconds));
    if (own.length < MIN_EXPOSURES || own.length < FEW * all.length || !(part < CUT)) return [];
    return [
      { rule, event: 'exposure-begin', why: `they end after ${Math.round(100 * part)} % of their stated seconds` },
    ];
  });
}

function spansIn(drafted: readonly DraftedEvent[]): readonly Span[] {
  const open = new Map<string, DraftedEvent>();
  return drafted.flatMap((over): Span[] => {
    const { event, train, atMs } = over.event;
    const begin = event === 'exposure-abort' ? undefined : beginOf(event);
    const key = `${begin ?? event} ${BY_TRAIN.test(event) ? (train ?? '') : ''}`;
    if (begin === undefined) {
      if (endOf(event) !== undefined) open.set(key, over);
      return [];
    }
    const begun = open.get(key);
    open.delete(key);
    return begun === undefined ? [] : [{ begun, over, seconds: (atMs - begun.event.atMs) / 1000 }];
  });
}
