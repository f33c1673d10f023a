import { expect, it } from 'vitest';
import type { Decoded } from '../../../src/gather/dialects/draft/classify/decode.js';
import { tellsNoEnds } from '../../../src/gather/dialects/draft/classify/no-ends.js';
import type { Kind } from '../../../src/gather/dialects/draft/kinds/kind.js';
import { alsoTold } from '../../../src/gather/dialects/draft/two-at-once.js';
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

it('knows a notebook in which all that is told begins', () => {
  expect(tellsNoEnds(asDecoded(BEGUN), 0.4)).toBe(true);
  expect(tellsNoEnds(asDecoded([...BEGUN, 'filter-end']), 0.4)).toBe(false);
  // Two things that begin are no habit, and what is hardly told is none.
  expect(tellsNoEnds(asDecoded(['exposure-begin', 'focus-begin']), 0.4)).toBe(false);
  expect(tellsNoEnds(asDecoded(BEGUN, 0.2), 0.4)).toBe(false);
});

it('saves a frame by the row that ends its exposure, where the file has a column of its own', () => {
  const row = (m: number, rest: string): string => `2026-10-14 20:${String(m).padStart(2, '0')}:05,${rest}`;
  const log = (column: (i: number) => string): string =>
    drafted(
      [
        'when,who,what,seconds,file',
        ...Array.from({ length: 12 }, (_, i) => row(4 * i + 6, `cam,exposed,200,${column(i)}`)),
        row(58, 'mount,dithered,,'),
      ],
      'night.csv',
    ).yaml;
  expect(log((i) => `m33-${i}.fits`)).toContain('event: [exposure-end, frame-saved]');
  expect(log((i) => `planned 200 s; L; m33-${i}.fits`)).not.toContain('frame-saved]');
});

it('saves nothing twice', () => {
  const [closed, saved] = kindsOf([
    [0, 'plate closed, h0001.fits'],
    [3, 'plate stowed'],
  ]);
  if (closed === undefined || saved === undefined) throw new Error('two kinds');
  const kind = { ...closed, slots: closed.slots.map((slot) => ({ ...slot, path: 'file' })) };
  expect(alsoTold(kind, 'exposure-end', [])).toBe('frame-saved');
  expect(alsoTold(kind, 'exposure-end', [[saved, 'frame-saved']])).toBeNull();
});
