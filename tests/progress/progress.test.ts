import { severalSites } from '../../src/progress/notices.js';
import { describe, expect, it } from 'vitest';
import { NO_BOOK, parseGoals } from '../../src/config/index.js';
import type { GoalsBook, NightSummary, TargetProgress } from '../../src/model/index.js';
import { progressOf } from '../../src/progress/index.js';
import { hoursOf, summaryOf } from '../support/records.js';

const HOUR = 3_600_000;
const book = (yaml: string): GoalsBook => parseGoals('goals.yaml', yaml).book;
const of = (nights: readonly NightSummary[], goals: GoalsBook = NO_BOOK) =>
  progressOf(nights, goals, (night) => night.site?.name ?? null);
const line = (target: TargetProgress | undefined, filter: string | null, train: string | null = null) =>
  target?.lines.find((l) => l.filter === filter && l.train === train);

describe('progress over nights', () => {
  it('sums integration per target and filter, and says which nights and trains gave it', () => {
    const { targets } = of(
      [
        summaryOf('2026-10-01', [hoursOf('NGC 281', 'Ha', 'heron', 3, 0.5), hoursOf('NGC 281', 'Ha', 'wren', 2)]),
        summaryOf('2026-10-02', [hoursOf('NGC 281', 'Ha', 'heron', 1), hoursOf('M 33', 'L', 'wren', 4)]),
      ],
      book('targets: [ { name: NGC 281, goals: { Ha: 10h, OIII: 8h } } ]'),
    );
    const ngc = targets.find((t) => t.name === 'NGC 281');
    expect(line(ngc, 'Ha')).toMatchObject({
      goalMs: 10 * HOUR,
      remainingMs: 4 * HOUR,
      nights: 2,
      ms: { taken: 6.5 * HOUR, kept: 6 * HOUR, lost: 0.5 * HOUR },
      keptByTrainMs: { heron: 4 * HOUR, wren: 2 * HOUR },
    });
    expect(line(ngc, 'OIII')).toMatchObject({ goalMs: 8 * HOUR, remainingMs: 8 * HOUR, nights: 0 });
    expect(ngc).toMatchObject({ goalMs: 18 * HOUR, remainingMs: 12 * HOUR });
    expect(ngc?.nights.map((n) => [n.date, n.ms.kept])).toEqual([
      ['2026-10-01', 5 * HOUR],
      ['2026-10-02', HOUR],
    ]);
    expect(targets.find((t) => t.name === 'M 33')).toMatchObject({
      goalMs: null,
      remainingMs: null,
      ms: { kept: 4 * HOUR },
    });
  });

  it('puts what lacks something first, then by the last night', () => {
    const nights = [
      summaryOf('2026-10-01', [hoursOf('A', 'L', 'h', 1)]),
      summaryOf('2026-10-02', [hoursOf('B', 'L', 'h', 1)]),
      summaryOf('2026-10-03', [hoursOf('C', 'L', 'h', 9)]),
    ];
    expect(
      of(nights, book('targets: [ { name: A, goals: { L: 5h } }, { name: C, goals: { L: 5h } } ]')).targets.map(
        (t) => t.name,
      ),
    ).toEqual(['A', 'B', 'C']);
  });

  it('shows a goal of which nothing is imaged yet', () => {
    const { targets } = of(
      [summaryOf('2026-10-01', [])],
      book('targets: [ { name: IC 1396, ra: "21:39:06", dec: "+57:30:00", goals: { Ha: 8h } } ]'),
    );
    expect(targets).toMatchObject([{ name: 'IC 1396', remainingMs: 8 * HOUR, nights: [], place: { decDeg: 57.5 } }]);
  });

  it('takes goals from the latest record that has any, and from the book before it', () => {
    const goals = (hours: number) => [
      { name: 'A', aliases: [], raDeg: 1, decDeg: 2, goals: { hours: { L: hours }, perTrain: {} } },
    ];
    const nights = [
      summaryOf('2026-10-01', [hoursOf('A', 'L', 'h', 1)], { goals: goals(5) }),
      summaryOf('2026-10-02', [hoursOf('A', 'L', 'h', 1)], { goals: goals(7) }),
      summaryOf('2026-10-03', [hoursOf('A', 'L', 'h', 1)]),
    ];
    expect(of(nights).targets[0]?.goalMs).toBe(7 * HOUR);
    expect(of(nights, book('targets: [ { name: A, goals: { L: 20h } } ]')).targets[0]?.goalMs).toBe(20 * HOUR);
    expect(of(nights, book('targets: [ { name: A, aliases: [ B ] } ]')).targets[0]?.goalMs).toBe(7 * HOUR);
  });

  it('never lets a surplus in one filter pay for a lack in another', () => {
    const [target] = of(
      [summaryOf('2026-10-01', [hoursOf('A', 'L', 'h', 9)])],
      book('targets: [ { name: A, goals: { L: 5h, R: 2h } } ]'),
    ).targets;
    expect(target).toMatchObject({ goalMs: 7 * HOUR, remainingMs: 2 * HOUR });
  });
});

describe('kinds of goals', () => {
  const night = summaryOf('2026-10-01', [
    hoursOf('A', 'L', 'heron', 3),
    hoursOf('A', 'L', 'wren', 2),
    hoursOf('A', 'R', 'heron', 1),
  ]);

  it('a ratio shares the total out among the filters', () => {
    const [target] = of(
      [night],
      book('targets: [ { name: A, goalRatio: { total: 12h, parts: { L: 3, R: 1, G: 1, B: 1 } } } ]'),
    ).targets;
    expect(target?.lines.map((l) => [l.filter, (l.goalMs ?? 0) / HOUR])).toEqual([
      ['L', 6],
      ['R', 2],
      ['G', 2],
      ['B', 2],
    ]);
    expect(target?.remainingMs).toBe((1 + 1 + 2 + 2) * HOUR);
  });

  it('a filter’s own hours stand over its part of the ratio', () => {
    const [target] = of(
      [night],
      book('targets: [ { name: A, goals: { L: 20h }, goalRatio: { total: 12h, parts: { L: 3, R: 1 } } } ]'),
    ).targets;
    expect(target?.lines.map((l) => [l.filter, (l.goalMs ?? 0) / HOUR])).toEqual([
      ['L', 20],
      ['R', 3],
    ]);
  });

  it('a train’s own goal counts that train alone; the others’ hours stand beside it', () => {
    const [target] = of([night], book('targets: [ { name: A, goalsPerTrain: { heron: { L: 4h } } } ]')).targets;
    expect(line(target, 'L', 'heron')).toMatchObject({ goalMs: 4 * HOUR, remainingMs: HOUR });
    expect(line(target, 'L', 'wren')).toMatchObject({ goalMs: null, ms: { kept: 2 * HOUR } });
    expect(line(target, 'R')).toMatchObject({ goalMs: null, ms: { kept: HOUR } });
  });

  it('a goal of no hours is none', () => {
    expect(of([night], book('targets: [ { name: A, goals: { L: 0 } } ]')).targets[0]?.goalMs).toBeNull();
  });

  it('a total counts every filter', () => {
    const [target] = of([night], book('targets: [ { name: A, goalTotal: 10h } ]')).targets;
    expect(line(target, null)).toMatchObject({ goalMs: 10 * HOUR, remainingMs: 4 * HOUR });
    expect(target?.lines.filter((l) => l.filter !== null).map((l) => l.goalMs)).toEqual([null, null]);
  });
});

describe('names', () => {
  it('differ in more than case and blanks, or are one', () => {
    const { targets } = of([
      summaryOf('2026-10-01', [hoursOf('NGC281', 'Ha', 'h', 1)]),
      summaryOf('2026-10-02', [hoursOf('ngc 281', 'ha', 'h', 1)]),
    ]);
    expect(targets.map((t) => [t.name, t.ms.kept])).toEqual([['ngc 281', 2 * HOUR]]);
    expect(targets[0]?.lines).toHaveLength(1);
  });

  it('of a renamed target are joined by aliases, of records and of the book, and along chains', () => {
    const nights = [
      summaryOf('2026-10-01', [hoursOf('Sh2-184', 'Ha', 'h', 1)]),
      summaryOf('2026-10-02', [hoursOf('NGC 281', 'Ha', 'h', 1)], {
        targets: [{ name: 'NGC 281', aliases: ['Sh2-184'], raDeg: 13.2, decDeg: 56.6 }],
      }),
      summaryOf('2026-10-03', [hoursOf('IC 11', 'Ha', 'h', 1)]),
    ];
    expect(
      of(nights)
        .targets.map((t) => t.ms.kept / HOUR)
        .sort(),
    ).toEqual([1, 2]);
    const [only, ...others] = of(
      nights,
      book('targets: [ { name: Autumn nebula, aliases: [ IC 11, NGC 281 ] } ]'),
    ).targets;
    expect(others).toEqual([]);
    expect(only).toMatchObject({ name: 'Autumn nebula', ms: { kept: 3 * HOUR }, place: { raDeg: 13 } });
    expect([...(only?.otherNames ?? [])].sort()).toEqual(['IC 11', 'NGC 281', 'Sh2-184']);
  });

  it('within half a degree of each other are proposed as one, never joined', () => {
    const at = (name: string, raDeg: number, decDeg: number) =>
      summaryOf('2026-10-01', [hoursOf(name, 'L', 'h', 1)], { targets: [{ name, aliases: [], raDeg, decDeg }] });
    // 0.8° of right ascension at 60° of declination is 0.4° on the sky.
    const near = of([at('A', 10, 60), at('B', 10.8, 60), at('C', 12, 60)]);
    expect(near.targets).toHaveLength(3);
    expect(near.notices.filter((n) => n.code === 'near-duplicate-targets').map((n) => n.message)).toEqual([
      expect.stringContaining('0.40° apart'),
    ]);
    const goal = book('targets: [ { name: B, goals: { L: 5h } } ]');
    const [notice] = of([at('A', 10, 60), at('B', 10.8, 60)], goal).notices.filter(
      (n) => n.code === 'near-duplicate-targets',
    );
    expect(notice?.message).toContain('{ name: B, aliases: [ A ] }');
    const other = book('targets: [ { name: A, goals: { L: 5h } } ]');
    expect(
      of([at('A', 10, 60), at('B', 10.8, 60)], other)
        .notices.map((n) => n.message)
        .join(),
    ).toContain('{ name: A, aliases: [ B ] }');
    // Names that a goal has already are written again, and quoted where YAML would read them otherwise.
    const named = book('targets: [ { name: A, aliases: [ "Sh2-184", "A: old" ], goals: { L: 5h } } ]');
    const [kept] = of([at('A', 10, 60), at('B', 10.8, 60)], named).notices;
    expect(kept?.message).toContain('{ name: A, aliases: [ Sh2-184, "A: old", B ] }');
    // Three are one proposal; panels of a mosaic, by their names, are none.
    const three = of([at('A', 10, 60), at('B', 10.2, 60), at('C', 10.4, 60)]).notices.map((n) => n.message);
    expect(three).toEqual([expect.stringContaining('"A", "B" and "C" lie within 0.20° of each other')]);
    expect(three[0]).toContain('{ name: A, aliases: [ B, C ] }');
    expect(of([at('M 31 panel 1', 10, 60), at('M31_P2', 10.2, 60)]).notices).toEqual([]);
    expect(of([at('A', 359.9, 0), at('B', 0.1, 0)]).notices.map((n) => n.code)).toContain('near-duplicate-targets');
  });

  it('of filters are counted as the goals file says', () => {
    const [target] = of(
      [summaryOf('2026-10-01', [hoursOf('A', 'H-alpha', 'h', 1), hoursOf('A', 'ha', 'h', 1)])],
      book('targets: [ { name: A, goals: { Ha: 5h } } ]\nfilters: { Ha: [ H-alpha ] }'),
    ).targets;
    expect(target?.lines.map((l) => [l.filter, l.ms.kept / HOUR])).toEqual([['Ha', 2]]);
  });

  it('may be missing: such light counts, under no name', () => {
    expect(of([summaryOf('2026-10-01', [hoursOf('', 'L', 'h', 2)])]).targets).toMatchObject([
      { name: '', place: null, ms: { kept: 2 * HOUR } },
    ]);
  });
});

describe('how nights went', () => {
  it('sums each night and month up', () => {
    const { trends, months } = of([
      summaryOf('2026-09-30', [hoursOf('A', 'L', 'heron', 4), hoursOf('A', 'L', 'wren', 3)], {}, 5),
      summaryOf('2026-10-01', [hoursOf('A', 'L', 'heron', 2)], { isDarkness: false, site: null }, 4),
    ]);
    expect(trends[0]).toMatchObject({
      darkMs: 10 * HOUR,
      usedMs: 5 * HOUR,
      keptMs: 7 * HOUR,
      keptPerTrainMs: 3.5 * HOUR,
      efficiency: 0.7,
      twinGain: 1.75,
    });
    expect(trends[1]).toMatchObject({ darkMs: null, efficiency: 0.5, twinGain: null });
    expect(months).toEqual([
      { month: '2026-09', nights: 1, darkMs: 10 * HOUR, usedMs: 5 * HOUR, keptMs: 7 * HOUR },
      { month: '2026-10', nights: 1, darkMs: 0, usedMs: 4 * HOUR, keptMs: 2 * HOUR },
    ]);
  });

  it('counts as used only what lies in darkness', () => {
    const base = summaryOf('2026-10-01', [hoursOf('A', 'L', 'h', 2)]);
    const early = { ...base, used: { startMs: base.window.startMs - 2 * HOUR, endMs: base.window.startMs + 3 * HOUR } };
    expect(of([early]).trends[0]?.usedMs).toBe(3 * HOUR);
  });

  it('has nothing to say of an archive without nights', () => {
    expect(of([])).toEqual({ nights: [], trains: [], targets: [], months: [], trends: [], notices: [] });
  });
});

describe('notices', () => {
  const codes = (nights: readonly NightSummary[], goals = NO_BOOK) => of(nights, goals).notices.map((n) => n.code);

  it('tell of several sites, and of nights without one', () => {
    const far = summaryOf('2026-10-02', [hoursOf('A', 'L', 'h', 1)]);
    const nights = [
      summaryOf('2026-10-01', [hoursOf('A', 'L', 'h', 1)]),
      { ...far, site: far.site && { ...far.site, name: 'Far Ridge' } },
      summaryOf('2026-10-03', [], { site: null }),
    ];
    expect(codes(nights)).toEqual(['several-sites', 'site-unknown']);
    expect(of(nights, NO_BOOK).notices[0]?.message).toContain('Far Ridge (1)');
    // Sites from headers have one name: where they lie tells them apart.
    const alike = { ...far, site: far.site && { ...far.site, latitudeDeg: -30.17, longitudeDeg: -70.81 } };
    const [warning] = severalSites([far, alike], ({ site }) => String(site?.latitudeDeg));
    expect(warning?.message).toMatch(/: (.+) at 40\.4° N, 1\.1° W \(1\), \1 at 30\.2° S, 70\.8° W \(1\);/);
  });

  it('tell of a clock that was set while a train exposed', () => {
    expect(codes([summaryOf('2026-10-01', [hoursOf('A', 'L', 'h', 4)], {}, 3)])).toEqual(['clock-jump']);
    expect(codes([summaryOf('2026-10-01', [hoursOf('A', 'L', 'h', 3), hoursOf('A', 'L', 'w', 3)], {}, 3)])).toEqual([]);
  });

  it('tell of a common goal for trains that do not see the same detail', () => {
    const base = summaryOf('2026-10-01', [hoursOf('A', 'L', 'heron', 1), hoursOf('A', 'L', 'wren', 1)]);
    const unlike = { ...base, trains: base.trains.map((t, i) => ({ ...t, pixelScaleArcsec: i === 0 ? 1.6 : 1.2 })) };
    expect(codes([unlike], book('targets: [ { name: A, goals: { L: 5h } } ]'))).toEqual(['unlike-pixel-scales']);
    expect(codes([unlike], book('targets: [ { name: A, goalsPerTrain: { heron: { L: 5h } } } ]'))).toEqual([]);
    expect(codes([unlike])).toEqual([]);
  });
});
