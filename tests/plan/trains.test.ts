import { describe, expect, it } from 'vitest';
import { parseGoals, parseRig } from '../../src/config/index.js';
import { trainsToPlan } from '../../src/plan-trains.js';
import { progressOf } from '../../src/progress/index.js';
import { hoursOf, summaryOf } from '../support/records.js';

/** Three pairs of names for the two trains of one mount, the oldest first. */
const NIGHTS = [
  ['2026-09-01', 'kite', 'lark'],
  ['2026-10-01', 'left', 'right'],
  ['2026-11-01', 'heron', 'wren'],
].map(([date = '', first = '', second = '']) =>
  summaryOf(date, [hoursOf('M 33', 'L', first, 2), hoursOf('M 33', 'R', second, 2)]),
);
const { book } = parseGoals('goals.yaml', 'targets: [ { name: M 33, goals: { L: 8h } } ]');
const progress = progressOf(NIGHTS, book, () => 'Cierzo Hill');
const plan = (wanted?: readonly string[]) => trainsToPlan(NIGHTS, progress, book, { wanted });

describe('the trains of a plan', () => {
  it('are those of the latest night: six names of two trains are not six trains on one mount', () => {
    expect(progress.trains).toHaveLength(6);
    const { trains, sentence } = plan();
    expect(trains.map(({ id }) => id).sort()).toEqual(['heron', 'wren']);
    expect(sentence).toMatch(/latest night: heron and wren\. Not .*kite.*right.*: name trains with --trains, or --rig/);
  });

  it('are those that are asked for', () => {
    expect(plan(['kite']).trains.map(({ id }) => id)).toEqual(['kite']);
    expect(plan(['kite']).sentence).toContain('the train asked for: kite');
    expect(() => plan(['crane'])).toThrow(/no night of the archive’s site has a train crane; it has .*heron/);
  });

  it('are those of a rig file: others are left out, new ones have their aperture, scale and filters', () => {
    const { rig } = parseRig(
      'rig.yaml',
      `trains:
  - { id: wren, telescope: { aperture: 150 }, frames: [ "wren/**" ], filters: { Ha: { width: 3 } } }
  - { id: crane, telescope: { aperture: 200, focalLength: 1000 }, camera: { pixelSize: 3.76 }, frames: [ "crane/**" ],
      filters: { R: {}, Ha: {} } }
`,
    );
    const nights = NIGHTS.map((night) => ({
      ...night,
      subs: [{ train: 'wren', target: 'M 33', filter: 'R', seconds: 240, frames: 30 }],
    }));
    const { trains, sentence } = trainsToPlan(nights, progress, book, { rig });
    expect(sentence).toMatch(
      /trains of the rig file: wren and crane\. crane is new: lengths.* Not .*heron.* not in the rig file\.$/,
    );
    const [wren, crane] = trains;
    expect(wren).toMatchObject({ id: 'wren', apertureMm: 150, subSeconds: new Map([['R', 240]]), mayHaveOthers: true });
    // 206.265 × 3.76 ÷ 1000.
    expect(crane).toMatchObject({ apertureMm: 200, pixelScaleArcsec: expect.closeTo(0.7756, 4), mayHaveOthers: false });
    // R as long as wren takes it; nobody has taken Ha: as long as others of wren.
    expect([...(crane?.newFilters ?? [])]).toEqual([
      ['R', 240],
      ['Ha', 240],
    ]);
    expect([...(wren?.newFilters ?? [])]).toEqual([['Ha', 240]]);
  });

  it('have the filters that they used elsewhere, where it is the same telescope', () => {
    const subs = (filter: string) => [{ train: 'heron', target: 'NGC 281', filter, seconds: 300, frames: 12 }];
    const here = summaryOf('2026-11-01', [hoursOf('M 33', 'L', 'heron', 2)], { subs: subs('L') });
    const away = summaryOf('2026-10-05', [hoursOf('NGC 281', 'Ha', 'heron', 1)], { subs: subs('Ha') });
    const others = away.trains.map((train) => ({ ...train, pixelScaleArcsec: 3 }));
    const filters = (elsewhere: typeof away) => {
      const all = progressOf([elsewhere, here], book, (night) => (night === here ? 'Cierzo Hill' : 'away'));
      return [...(trainsToPlan([here], all, book, {}).trains[0]?.subSeconds.keys() ?? [])].sort();
    };
    expect(filters(away)).toEqual(['Ha', 'L']);
    expect(filters({ ...away, trains: others })).toEqual(['L']);
  });

  it('are no more than six: what they can do together grows with each', () => {
    const crowd = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];
    const night = summaryOf(
      '2026-11-02',
      crowd.map((train) => hoursOf('M 33', 'L', train, 2)),
    );
    const many = progressOf([night], book, () => 'Cierzo Hill');
    const own = trainsToPlan([night], many, book, {});
    expect(own.trains).toHaveLength(6);
    expect(own.sentence).toContain('No more than 6 trains are planned.');
    expect(() => trainsToPlan([night], many, book, { wanted: crowd })).toThrow(/at most 6 trains, and 8 are asked for/);
  });
});
