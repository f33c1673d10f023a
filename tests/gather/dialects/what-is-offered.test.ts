import { describe, expect, it } from 'vitest';
import { classify } from '../../../src/gather/dialects/draft/classify/classify.js';
import { sideInTurn } from '../../../src/gather/dialects/draft/classify/in-turn.js';
import { linesTelling, MOST, shortlist } from '../../../src/gather/dialects/draft/classify/offers.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

/** What is offered for the lines that begin so, in a night of forty exposures with whatever else. */
function offered(beginning: string, more: Parameters<typeof rounds>[2]): readonly EventName[] {
  const kinds = kindsOf(
    rounds(40, 330, (from, i) => [
      [from, `shutter opens for 300 s, frame ${i}`],
      [from + 300, 'shutter closes'],
      ...more(from, i),
    ]),
  );
  const { verdicts } = classify(kinds.map((kind) => ({ kind })));
  return shortlist(verdicts.get(kindLike(kinds, beginning))?.offers([]) ?? [], (event) => event);
}

const dithered = (from: number, i: number): [number, string][] => [
  [from + 303, `dither of 2.${i} px begins`],
  [from + 305, 'dither ends'],
];

describe('what is offered for a line that nothing is made of', () => {
  it('is what its place in the night tells: what follows a dither and leads to an exposure has settled', () => {
    const offers = offered('wibble', (from, i) => [...dithered(from, i), [from + 322, 'wibble']]);
    expect(offers.slice(0, 2)).toContain('settling-end');
    expect(offers.length).toBeLessThanOrEqual(MOST);
  });

  it('is the side that the log does not tell', () => {
    const offers = offered('florp', (from, i) =>
      i % 8 === 0
        ? [
            [from + 302, 'filter wheel starts to turn to Ha'],
            [from + 308, 'florp'],
          ]
        : [],
    );
    expect(offers[0]).toBe('filter-end');
  });

  it('is nothing for what happens in every log, unless it may hold all up', () => {
    expect(offered('camera connected', (from, i) => (i === 0 ? [[from + 310, 'camera connected']] : []))).toEqual([]);
    const gale = offered('wind', (from, i) => (i === 3 ? [[from + 310, 'wind over 60 km/h, everybody waits']] : []));
    expect(gale).toContain('hold-begin');
    expect(gale).not.toContain('cooler');
  });

  it('is not again what the night contradicts', () => {
    const kinds = kindsOf(
      rounds(20, 300, (from, i) => [
        [from, `shutter opens for 280 s, frame ${i}`],
        [from + 290, 'dither ends'],
      ]),
    );
    const { verdicts } = classify(kinds.map((kind) => ({ kind })));
    const offers = (doubted: readonly EventName[]) => verdicts.get(kindLike(kinds, 'dither'))?.offers(doubted) ?? [];
    const worth = (doubted: readonly EventName[]): number =>
      offers(doubted).find(([one]) => one === 'dither-end')?.[1] ?? 0;
    expect(worth(['dither-end'])).toBeLessThan(worth([]));
  });
});

describe('the short list of what is offered', () => {
  const all: readonly (readonly [EventName, number])[] = (
    [
      ...['focus-end', 'filter-end', 'slew-end', 'flip-end', 'centre-end', 'dither-end', 'settling-end', 'hold-end'],
      ...['filter-begin', 'focus-begin'],
    ] as EventName[]
  ).map((event, i) => [event, -i] as const);

  it('holds the other sides of the two likeliest', () => {
    const offers = shortlist(all, (event) => event);
    expect(offers).toHaveLength(MOST);
    expect(offers.slice(0, 2)).toEqual(['focus-end', 'filter-end']);
    expect(offers.slice(-2)).toEqual(['focus-begin', 'filter-begin']);
  });

  it('offers once what comes to the same rule', () => {
    const offers = shortlist(all, (event) => event.replace(/-\w+$/, ''));
    expect(offers).not.toContain('focus-begin');
    expect(offers).toHaveLength(MOST);
  });
});

describe('the side of a thing that lines tell', () => {
  it('is inferred from how they alternate with others: a span is shorter than the gap after it', () => {
    const [first, second, third] = kindsOf(
      rounds(6, 900, (from, i) => [
        [from, 'wibble'],
        [from + 60, 'florp'],
        ...(i === 2 ? ([[from + 400, 'gloop']] as const) : []),
      ]),
    );
    if (first === undefined || second === undefined || third === undefined) throw new Error('no kind');
    expect(sideInTurn(first, [first, second, third])).toBe('begin');
    expect(sideInTurn(second, [first, second, third])).toBe('end');
    expect(sideInTurn(third, [first, second, third])).toBeNull();
  });
});

describe('the lines that tell an event', () => {
  it('tell its beginning as well where they state how long it took', () => {
    const [gale, camera] = kindsOf([
      [0, 'the gale is past'],
      [10, 'camera connected'],
    ]);
    if (gale === undefined || camera === undefined) throw new Error('no kind');
    const taken = new Map<typeof gale, EventName>([
      [gale, 'hold-end'],
      [camera, 'slew-end'],
    ]);
    const reported = linesTelling(taken, { opensMs: new Map(), tookMs: new Map([[gale, [60_000]]]), rows: new Set() });
    expect(reported).toEqual(
      new Map([
        ['hold-end', 1],
        ['hold-begin', 1],
        ['slew-end', 1],
      ]),
    );
  });
});
