import { expect, it } from 'vitest';
import type { Decoded } from '../../../src/gather/dialects/draft/classify/decode.js';
import { tellsNoEnds } from '../../../src/gather/dialects/draft/classify/no-ends.js';
import type { Kind } from '../../../src/gather/dialects/draft/kinds/kind.js';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { kindsOf } from './support/kinds.js';

const BEGUN: EventName[] = ['exposure-begin', 'focus-begin', 'slew-begin', 'dither-begin', 'frame-saved'];
const asDecoded = (events: readonly EventName[], value = 3): Map<Kind, Decoded> =>
  new Map(
    kindsOf(events.map((event, i) => [60 * i, `said of ${event}`])).map((kind, i) => [
      kind,
      { ranking: [[events[i] ?? 'note', value]], fit: 1, rival: 1 },
    ]),
  );

it('recognises a notebook that only reports begins', () => {
  expect(tellsNoEnds(asDecoded(BEGUN), 0.4)).toBe(true);
  expect(tellsNoEnds(asDecoded([...BEGUN, 'filter-end']), 0.4)).toBe(false);
  // Two things that begin are no habit, and weak evidence does not count.
  expect(tellsNoEnds(asDecoded(['exposure-begin', 'focus-begin']), 0.4)).toBe(false);
  expect(tellsNoEnds(asDecoded(BEGUN, 0.2), 0.4)).toBe(false);
});

it('says nothing of a frame being saved where a row only names its file', () => {
  const row = (m: number, i: number): string =>
    `2026-10-14 20:${String(m).padStart(2, '0')}:05,cam,exposed,200,m33-${i}.fits`;
  const rows = Array.from({ length: 12 }, (_, i) => row(4 * i + 6, i));
  const { yaml } = drafted(
    ['when,who,what,seconds,file', ...rows, '2026-10-14 20:58:05,mount,dithered,,'],
    'night.csv',
  );
  expect(yaml).toContain('event: exposure-end');
  expect(yaml).not.toContain('frame-saved]');
});
