import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';
import type { Trains } from './trains.js';

/** Fewer lines may coincide by chance; this fraction of them must precede a dither. */
const MIN_LINES = 6;
const MOST = 0.85;
/** Minimum evidence of a line for its event here. */
const SAID = 2;
/** If dithers are this frequent relative to exposures, whatever follows an exposure also precedes a dither. */
const SELDOM = 0.7;
const WAITS = 2.2;

/**
 * Kinds that each train logs once between exposures before the mount dithers: the train is waiting for the dither,
 * whatever the words. `listo`, `has finished its share`.
 */
export function beforeDithers(
  own: ReadonlyMap<Kind, ReadonlyMap<EventName, number>>,
  timeline: readonly Occurrence[],
  trains: Trains,
): Map<Kind, number> {
  const said = new Map([...own].map(([kind, evidence]) => [kind, likeliest(evidence)] as const));
  const count = (event: EventName): number =>
    [...said].reduce((sum, [kind, name]) => sum + (name === event ? kind.count : 0), 0);
  const dithers = count('dither-begin');
  const exposures = Math.max(count('exposure-begin'), count('exposure-end'), count('frame-saved'));
  if (dithers === 0 || exposures === 0) return new Map();
  const hits = new Map<Kind, number>();
  const nths = new Map<Kind, number>();
  let waiting: { readonly kind: Kind; readonly train: number }[] = [];
  for (const { kind } of timeline) {
    const nth = nths.get(kind) ?? 0;
    nths.set(kind, nth + 1);
    const name = said.get(kind);
    const train = trains.of(kind, nth);
    if (name === 'dither-begin') {
      for (const one of waiting) hits.set(one.kind, (hits.get(one.kind) ?? 0) + 1);
      waiting = [];
    } else if (name?.startsWith('exposure') === true || name === 'frame-saved')
      waiting = waiting.filter((one) => one.train !== train);
    else if (train >= 0 && (name === undefined || name === 'dither-ready'))
      waiting = [...waiting.filter((one) => one.kind !== kind || one.train !== train), { kind, train }];
  }
  return new Map(
    [...hits].flatMap(([kind, before]) => {
      const isWait = (own.get(kind)?.get('dither-ready') ?? 0) > 0;
      const may = isWait || (dithers <= SELDOM * exposures && kind.count <= 2.2 * dithers);
      return may && kind.count >= MIN_LINES && before >= MOST * kind.count ? [[kind, WAITS] as const] : [];
    }),
  );
}

function likeliest(evidence: ReadonlyMap<EventName, number>): EventName | undefined {
  const [best] = [...evidence].sort((a, b) => b[1] - a[1]);
  return best === undefined || (best[1] < SAID && best[0] !== 'dither-ready') ? undefined : best[0];
}
