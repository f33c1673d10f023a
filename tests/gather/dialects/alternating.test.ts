import { describe, expect, it } from 'vitest';
import { alternating } from '../../../src/gather/dialects/draft/classify/alternating.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { priorOf } from '../../../src/gather/dialects/draft/classify/priors.js';
import { stray } from '../../../src/gather/dialects/draft/classify/stray.js';
import type { Taken } from '../../../src/gather/dialects/draft/classify/withdrawal.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

const taken = (event: EventName): Taken => ({ event, next: null });
const noTrain = (): number => -1;

describe('two kinds that begin the same in turn', () => {
  const kinds = kindsOf(
    rounds(6, 600, (from) => [
      [from, 'wheel asked for band two'],
      [from + 4, 'wheel band two'],
    ]),
  );
  const asked = kindLike(kinds, 'wheel asked');
  const there = kindLike(kinds, 'wheel band');

  it('are its beginning and its end where no line tells the end', () => {
    const both = new Map([
      [asked, taken('filter-begin')],
      [there, taken('filter-begin')],
    ]);
    expect([...alternating(both, timelineOf(kinds), noTrain)]).toEqual([[there, 'filter-end']]);
    const ends = new Map([
      [asked, taken('filter-end')],
      [there, taken('filter-end')],
    ]);
    expect([...alternating(ends, timelineOf(kinds), noTrain)]).toEqual([[asked, 'filter-begin']]);
  });

  it('may be a hold of half an hour, which a wheel that turns is not', () => {
    const clouds = kindsOf(
      rounds(3, 9000, (from) => [
        [from, 'all of it: murk'],
        [from + 1500, 'all of it: murk gone'],
      ]),
    );
    const both = (event: EventName): Map<(typeof clouds)[number], Taken> =>
      new Map(clouds.map((kind) => [kind, taken(event)] as const));
    expect([...alternating(both('hold-end'), timelineOf(clouds), noTrain).values()]).toEqual(['hold-begin']);
    expect(alternating(both('filter-end'), timelineOf(clouds), noTrain).size).toBe(0);
  });

  it('may be of two trains whose wheels turn at once', () => {
    const wheels = kindsOf(
      rounds(6, 600, (from, i) => [
        [from, `wheel asked for band ${i}`],
        [from + 1, `wheel asked for band ${i + 3}`],
        [from + 6, `wheel holds band ${i}`],
        [from + 8, `wheel holds band ${i + 3}`],
      ]),
    );
    const both = new Map(wheels.map((kind) => [kind, taken('filter-begin')]));
    const turned = alternating(both, timelineOf(wheels), noTrain);
    expect([...turned]).toEqual([[kindLike(wheels, 'wheel holds'), 'filter-end']]);
  });

  it('are left alone where they are of two trains', () => {
    const trains = kindsOf(
      rounds(6, 600, (from) => [
        [from, 'heron-cam: wheel turns'],
        [from + 4, 'wren-cam: wheel turns'],
      ]),
    );
    const both = new Map(trains.map((kind) => [kind, taken('filter-begin')]));
    expect(alternating(both, timelineOf(trains), noTrain).size).toBe(0);
  });
});

describe('a star that is picked and followed at once', () => {
  const turns = (gapSeconds: number) =>
    kindsOf(
      rounds(6, 3600, (from) => [
        [from, 'lodestar picked'],
        [from + gapSeconds, 'lodestar followed'],
      ]),
    );

  it.each([
    [4, 'lodestar picked', null],
    [500, 'lodestar followed', 'guiding-end'],
  ] as const)('is guided from the second on, and not for %d s', (gapSeconds, text, event) => {
    const kinds = turns(gapSeconds);
    const both = new Map(kinds.map((kind) => [kind, taken('guiding-begin')]));
    expect([...alternating(both, timelineOf(kinds), noTrain)]).toEqual([[kindLike(kinds, text), event]]);
  });
});

describe('what failed, whatever it was', () => {
  it.each([
    ['could not be done, once more', false],
    ['done over, once more', true],
  ])('begins nothing: %s', (text, mayBegin) => {
    const [kind] = kindsOf(rounds(6, 600, (from) => [[from, text]]));
    if (kind === undefined) throw new Error('no kind');
    expect(priorOf(kind, 40).has('guiding-begin')).toBe(mayBegin);
    expect(priorOf(kind, 40).has('focus-end')).toBe(true);
  });
});

describe('what is not calm yet', () => {
  const words = 'guider unsettled';
  it('has failed at nothing, and begins to settle where it is waited for', () => {
    const kinds = kindsOf(rounds(6, 600, (from) => [[from, words]]));
    expect(kinds.map((kind) => priorOf(kind, 40).has('settling-begin'))).toEqual([true]);
    const waited = wordEvidence(`${words}, we wait until it is calm`);
    expect(waited.get('settling-begin') ?? 0).toBeGreaterThan(waited.get('settling-end') ?? 0);
    const failed = wordEvidence(`${words}, we wait no longer: failed`);
    expect(failed.get('settling-end') ?? 0).toBeGreaterThan(failed.get('settling-begin') ?? 0);
  });
});

describe('a line on the mount that names no target', () => {
  it('is no slew where others name theirs', () => {
    const kinds = kindsOf([
      [0, 'slewing to NGC 281'],
      [40, 'slew done'],
      [4000, 'slewing to NGC 891'],
      [4040, 'slew done'],
      [8000, 'slewing to M 33'],
      [8040, 'slew done'],
      [9000, 'mount swings over'],
      [9100, 'mount has swung over'],
    ]);
    const events = new Map<(typeof kinds)[number], EventName>([
      [kindLike(kinds, 'slewing'), 'slew-begin'],
      [kindLike(kinds, 'slew done'), 'slew-end'],
      [kindLike(kinds, 'mount swings'), 'slew-begin'],
      [kindLike(kinds, 'mount has'), 'slew-end'],
    ]);
    const found = stray(events, timelineOf(kinds), noTrain, () => true);
    expect([...found].map(({ examples }) => examples[0])).toEqual(['mount swings over', 'mount has swung over']);
  });
});

describe('a line that ends one thing and begins the next', () => {
  const kinds = kindsOf(
    rounds(6, 600, (from) => [
      [from, 'hop ordered'],
      [from + 6, 'hop done, settling now'],
      [from + 20, 'calm'],
    ]),
  );

  it('tells both, each clause its own', () => {
    const evidence = wordEvidence('hop done, settling now');
    expect([...evidence.keys()]).toEqual(['dither-end', 'settling-begin']);
  });

  it('leaves the beginning to the line before it', () => {
    const events = new Map([
      [kindLike(kinds, 'hop ordered'), taken('dither-end')],
      [kindLike(kinds, 'hop done'), taken('settling-begin')],
      [kindLike(kinds, 'calm'), taken('settling-end')],
    ]);
    expect([...alternating(events, timelineOf(kinds), noTrain)]).toEqual([
      [kindLike(kinds, 'hop ordered'), 'dither-begin'],
    ]);
  });
});

describe('the roof at the beginning and at the end of a night', () => {
  const kinds = kindsOf([
    [0, 'roof open, good evening'],
    ...rounds(8, 320, (from) => [
      [from + 60, 'shutter opens'],
      [from + 360, 'shutter closes'],
    ]),
    [1000, 'clouds, we wait'],
    [1200, 'clear, on we go'],
    [4000, 'roof shut, good night'],
  ]);
  const events = new Map<(typeof kinds)[number], EventName>([
    [kindLike(kinds, 'roof open'), 'hold-end'],
    [kindLike(kinds, 'shutter opens'), 'exposure-begin'],
    [kindLike(kinds, 'shutter closes'), 'exposure-end'],
    [kindLike(kinds, 'clouds'), 'hold-begin'],
    [kindLike(kinds, 'clear'), 'hold-end'],
    [kindLike(kinds, 'roof shut'), 'hold-begin'],
  ]);

  it('holds nothing up', () => {
    const found = stray(events, timelineOf(kinds), noTrain, () => true);
    expect([...found].map(({ examples }) => examples[0])).toEqual(['roof open, good evening', 'roof shut, good night']);
  });
});
