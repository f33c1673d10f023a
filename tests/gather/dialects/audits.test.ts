import { describe, expect, it } from 'vitest';
import { withoutContradicted } from '../../../src/gather/dialects/draft/audit/doubting.js';
import { disturbed } from '../../../src/gather/dialects/draft/audit/disturbed.js';
import { held } from '../../../src/gather/dialects/draft/audit/held.js';
import { lengths } from '../../../src/gather/dialects/draft/audit/lengths.js';
import { overlapping } from '../../../src/gather/dialects/draft/audit/overlapping.js';
import { sameFilter } from '../../../src/gather/dialects/draft/audit/same-filter.js';
import { savedAgain } from '../../../src/gather/dialects/draft/audit/saved-again.js';
import { steady } from '../../../src/gather/dialects/draft/audit/steady.js';
import type { DraftedEvent, DraftedNight } from '../../../src/gather/dialects/draft/audit/drafted-night.js';
import { tooCommon } from '../../../src/gather/dialects/draft/audit/too-common.js';
import { unpaired } from '../../../src/gather/dialects/draft/audit/unpaired.js';
import type { DraftReport, DraftRule } from '../../../src/gather/dialects/draft/report.js';
import { writeDraft } from '../../../src/gather/dialects/draft/write-draft.js';
import { draftDialect, type LogSample } from '../../../src/gather/dialects/index.js';
import { bareEvent, type EventFields, type EventName } from '../../../src/model/index.js';
import { sampleOf } from './support/drafted.js';

const AT = Date.UTC(2026, 9, 14, 20);
const SOURCE = { file: 'night.log' };

interface Row extends EventFields {
  readonly train?: string;
  readonly rule?: number;
}

/** An event so many seconds into the night. */
function at(seconds: number, event: EventName, { train, rule = 0, ...fields }: Row = {}): DraftedEvent {
  return { rule, event: Object.assign(bareEvent(event, AT + seconds * 1000, train, SOURCE), fields) };
}
const many = <T>(count: number, of: (i: number) => T | readonly T[]): T[] =>
  Array.from({ length: count }, (_, i) => of(i)).flat() as T[];
const nightOf = (...reported: readonly DraftedEvent[]): DraftedNight => ({
  rules: [],
  drafted: reported.toSorted((a, b) => a.event.atMs - b.event.atMs),
});
/** Exposures of 60 s, every 100 s. */
const exposures = (count: number): DraftedEvent[] =>
  many(count, (i) => [
    at(100 * i, 'exposure-begin', { train: 'heron', seconds: 60, rule: 10 }),
    at(100 * i + 60, 'exposure-end', { train: 'heron', rule: 11 }),
  ]);
const rulesOf = (doubts: readonly { readonly rule: number }[]): number[] => doubts.map(({ rule }) => rule);

// What such things take, and how often they come, is common practice; there is no source for it.
describe('what cannot be on a real night', () => {
  it('is a frame that is saved again and again', () => {
    const saves = many(20, (i) => at(100 * i + 62, 'frame-saved', { file: `f${i}.fits`, rule: 1 }));
    const again = many(20, (i) => at(100 * i + 70, 'frame-saved', { file: `f${i}.fits`, rule: 2 }));
    expect(rulesOf(savedAgain(nightOf(...exposures(20), ...saves, ...again)))).toEqual([2]);
    expect(savedAgain(nightOf(...exposures(20), ...saves))).toEqual([]);
  });

  it('is something rare that comes with each exposure', () => {
    const flips = (every: number): DraftedEvent[] =>
      many(30 / every, (i) => at(100 * every * i + 65, 'flip-begin', { rule: 1 }));
    expect(rulesOf(tooCommon(nightOf(...exposures(30), ...flips(1))))).toEqual([1]);
    expect(tooCommon(nightOf(...exposures(30), ...flips(10)))).toEqual([]);
  });

  it('is a refocus by the clock', () => {
    const runs = (jitter: number): DraftedEvent[] =>
      many(20, (i) => at(300 * i + jitter * ((i * 7) % 5), 'focus-begin', { rule: 1 }));
    expect(rulesOf(steady(nightOf(...runs(0))))).toEqual([1]);
    expect(steady(nightOf(...runs(20)))).toEqual([]);
  });

  it('is an exposure while the last one of its train goes on', () => {
    const begins = (train: (i: number) => string): DraftedEvent[] =>
      many(20, (i) => at(40 * i, 'exposure-begin', { train: train(i), seconds: 60, rule: 1 }));
    expect(rulesOf(overlapping(nightOf(...begins(() => 'heron'))))).toEqual([1]);
    expect(overlapping(nightOf(...begins((i) => (i % 2 === 0 ? 'heron' : 'wren'))))).toEqual([]);
  });

  it('is a wheel that turns for minutes, and an exposure over long before its time', () => {
    const turns = (seconds: number): DraftedEvent[] =>
      many(6, (i) => [at(600 * i, 'filter-begin', { rule: 1 }), at(600 * i + seconds, 'filter-end', { rule: 2 })]);
    expect(rulesOf(lengths(nightOf(...turns(100))))).toEqual([1, 2]);
    expect(lengths(nightOf(...turns(7)))).toEqual([]);
    const cut = exposures(20).map((one) =>
      one.event.event === 'exposure-end' ? { ...one, event: { ...one.event, atMs: one.event.atMs - 30_000 } } : one,
    );
    expect(rulesOf(lengths(nightOf(...cut)))).toEqual([10]);
    expect(lengths(nightOf(...exposures(20)))).toEqual([]);
  });

  it('may be cut short where that is said, or where hardly any are', () => {
    const shorter = (share: number, event: 'exposure-end' | 'exposure-abort'): DraftedEvent[] =>
      exposures(60).map((one, k) => {
        const isCut = Math.floor(k / 2) % share === 0;
        if (one.event.event !== 'exposure-end') return isCut ? { ...one, rule: 7 } : one;
        return isCut ? { ...one, event: { ...one.event, event, atMs: one.event.atMs - 30_000 } } : one;
      });
    expect(rulesOf(lengths(nightOf(...shorter(3, 'exposure-end'))))).toEqual([7]);
    expect(lengths(nightOf(...shorter(3, 'exposure-abort')))).toEqual([]);
    expect(lengths(nightOf(...shorter(8, 'exposure-end')))).toEqual([]);
  });

  it('is a mount that moves while every train exposes', () => {
    const dithers = (after: number): DraftedEvent[] =>
      many(10, (i) => at(200 * i + after, 'dither-begin', { rule: 1 }));
    expect(rulesOf(disturbed(nightOf(...exposures(20), ...dithers(30))))).toEqual([1]);
    expect(disturbed(nightOf(...exposures(20), ...dithers(70)))).toEqual([]);
    // A train that rides along may expose meanwhile.
    const rider = many(20, (i) => [
      at(100 * i + 40, 'exposure-begin', { train: 'wren', seconds: 55, rule: 12 }),
      at(100 * i + 95, 'exposure-end', { train: 'wren', rule: 13 }),
    ]);
    expect(disturbed(nightOf(...exposures(20), ...rider, ...dithers(70)))).toEqual([]);
    // Where all that moves is in the way of exposures, these are wrong.
    const turns = many(10, (i) => at(200 * i + 25, 'filter-begin', { train: 'heron', rule: 2 }));
    expect(new Set(rulesOf(disturbed(nightOf(...exposures(20), ...dithers(30), ...turns))))).toEqual(new Set([10]));
  });

  it('is a wheel that turns to the filter that is in', () => {
    const turns = (to: (i: number) => string): DraftedEvent[] =>
      many(30, (i) => at(100 * i, 'filter-end', { train: 'heron', to: to(i), rule: 1 }));
    expect(rulesOf(sameFilter(nightOf(...turns(() => 'Ha'))))).toEqual([1]);
    expect(sameFilter(nightOf(...turns((i) => (i % 2 === 0 ? 'Ha' : 'L'))))).toEqual([]);
  });

  it('is a hold in which exposures begin, or with nothing left to hold up', () => {
    const hold = (seconds: number): DraftedEvent => at(seconds, 'hold-begin', { rule: 1 });
    expect(rulesOf(held(nightOf(...exposures(30), hold(965))))).toEqual([1]);
    expect(rulesOf(held(nightOf(...exposures(30), hold(4000))))).toEqual([1]);
    // Clouds that end the night do so while it exposes.
    expect(held(nightOf(...exposures(30), hold(2965)))).toEqual([]);
    const later = exposures(30).map((one) => ({ ...one, event: { ...one.event, atMs: one.event.atMs + 3_600_000 } }));
    expect(held(nightOf(...exposures(30), ...later, hold(2970), at(3590, 'hold-end')))).toEqual([]);
  });

  it('is an end of what has not begun, where all others have', () => {
    const pairs = many(6, (i) => [at(600 * i, 'focus-begin', { rule: 1 }), at(600 * i + 90, 'focus-end', { rule: 2 })]);
    const more = many(4, (i) => at(600 * i + 300, 'focus-end', { rule: 3 }));
    expect(rulesOf(unpaired(nightOf(...pairs, ...more)))).toEqual([3]);
    expect(unpaired(nightOf(...pairs))).toEqual([]);
    // A log may well tell nothing but ends.
    expect(unpaired(nightOf(...more))).toEqual([]);
    // Settling that follows a dither need not be said to begin.
    const settled = many(6, (i) => [
      at(600 * i + 200, 'dither-end', { rule: 4 }),
      at(600 * i + 210, 'settling-end', { rule: 5 }),
      at(600 * i + 400, 'settling-begin', { rule: 6 }),
      at(600 * i + 410, 'settling-end', { rule: 7 }),
    ]);
    expect(unpaired(nightOf(...settled))).toEqual([]);
  });
});

describe('a draft that doubts itself', () => {
  const clock = (seconds: number): string => new Date(AT + seconds * 1000).toISOString();
  const night = (last: readonly string[]): string[] => [
    ...many(40, (i) => [
      `${clock(130 * i)} heron: exposure of 120 s begins, Ha`,
      `${clock(130 * i + 120)} heron: exposure ends`,
    ]),
    ...last,
  ];
  /** The draft of a night with a line on clouds, by a rule that takes it for a hold. */
  const withHold = (seconds: number): { readonly sample: LogSample; readonly report: DraftReport } => {
    const sample = sampleOf(night([`${clock(seconds)} roof: clouds`]));
    const { report } = draftDialect(sample);
    const rules = report.unused
      .filter(({ template }) => template.includes('clouds'))
      .map(
        ({ kind, when, count, firstLine, examples, choice }): DraftRule => ({
          ...{ kind, choice, when, count, firstLine, examples, groups: new Map(), fields: {}, score: 1, margin: 1 },
          events: [{ event: 'hold-begin' }],
        }),
      );
    return { sample, report: { ...report, rules: [...report.rules, ...rules], unused: [] } };
  };
  const eventsOf = ({ rules }: DraftReport): string[] =>
    rules.flatMap(({ events }) => events.map(({ event }) => event));

  it('takes a rule back, offers it with the reason, and keeps it where the night bears it out', () => {
    const late = withHold(6000);
    expect(eventsOf(late.report)).toContain('hold-begin');
    const doubted = withoutContradicted(late.sample, late.report);
    expect(eventsOf(doubted)).toEqual(eventsOf(late.report).filter((event) => event !== 'hold-begin'));
    expect(writeDraft(doubted)).toMatch(/^#.*likeliest: .+\n#\s+# TAKEN BACK, the night contradicts it: /m);
    const cut = withHold(5150);
    expect(withoutContradicted(cut.sample, cut.report)).toEqual(cut.report);
  });
});
