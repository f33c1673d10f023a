import { describe, expect, it } from 'vitest';
import { planText } from '../../../src/report/plan/text.js';
import { planView } from '../../../src/report/plan/view.js';
import { toPlanJson } from '../../../src/report/plan/json.js';
import { ditherOf, stillNeeded, summaryOf } from '../../../src/report/plan/wording.js';
import type { LeftReason, Plan, PlannedBlock, PlannedNight } from '../../../src/model/index.js';
import { interval } from '../../../src/model/index.js';

const DUSK = Date.parse('2026-11-25T18:00:00Z');
const HOUR = 3_600_000;

const block = (from: number, to: number, begin: number, end: number): PlannedBlock => ({
  span: interval(DUSK + from * HOUR, DUSK + to * HOUR),
  target: 'IC 1396',
  isNewTarget: from === 0,
  altitudeDeg: { begin, end, least: end },
  moonSeparationDeg: null,
  transitMs: null,
  dither: null,
  trains: [
    {
      train: 'heron',
      state: 'exposes',
      filter: 'Ha',
      subs: 6,
      subSeconds: 420,
      addsHours: 0.7,
      beyondHours: 0,
      refocusMs: [],
      isUsualLength: true,
    },
    { train: 'wren', state: 'rests', why: 'no-goal' },
  ],
});

const exposing = (train: string): PlannedBlock['trains'] =>
  block(0, 1, 72, 70).trains.flatMap((one) => (one.state === 'rests' ? [] : [{ ...one, train }]));

const PLAN: Plan = {
  from: '2026-11-25',
  site: null,
  zone: 'UTC',
  trains: ['heron', 'wren'],
  assumptions: [],
  left: [],
  nights: ['2026-11-25', '2026-11-26'].map((date) => ({
    date,
    window: interval(DUSK, DUSK + 12 * HOUR),
    moonIllumination: 0.5,
    moonUp: [],
    shortOfBest: 0,
    blocks: [block(0, 1, 72, 70.4), block(1, 1.5, 60.2, 59.8)],
    free: [
      {
        span: interval(DUSK + 1.5 * HOUR, DUSK + 12 * HOUR),
        why: [
          { targets: ['IC 1396'], reasons: ['reached'] },
          { targets: ['M 33', 'NGC 281'], reasons: ['moon', 'low'] },
          { targets: ['A', 'B', 'C'], reasons: ['effort'] },
        ],
      },
    ],
    lines: [
      { target: 'IC 1396', filter: 'Ha', train: null, addsHours: 1.2, lacksHours: 0 },
      { target: 'IC 1396', filter: 'SII', train: null, addsHours: 0.3, lacksHours: 2.25 },
    ],
  })),
};

const WHY =
  'IC 1396 needs no more; M 33 and NGC 281 in too much moonlight, then below their limit; 3 targets not ' +
  'worth slewing to';

describe('a plan in words', () => {
  it('calls a goal reached that needs nothing more', () => {
    expect(stillNeeded(0)).toBe('goal reached');
    expect(stillNeeded(0.04)).toBe('goal reached');
    expect(stillNeeded(2.24)).toBe('2.2 h');
  });

  it('says what each filter gains and still needs, and names an altitude once that stays', () => {
    const text = planText(PLAN);
    expect(text).toContain('IC 1396 Ha: adds 1.2 h; goal reached');
    expect(text).toMatch(/IC 1396 SII: adds 0\.3 h; then still needs 2\.[23] h/);
    expect(text).toContain('altitude 72° to 70°');
    expect(text).toContain('altitude 60°;');
    expect(text).toContain('wren: rests: no unmet goal of this target asks for it');
  });

  it('says when to dither in step: after how many subs of each train', () => {
    const said = (subs: Readonly<Record<string, number>>, waitMs: Readonly<Record<string, number>> = {}) =>
      ditherOf({ ...block(0, 1, 72, 70), dither: { subs, waitMs, everyMs: 624_000 } });
    expect(said({ heron: 1 })).toEqual(['after each sub of heron', 'every 10.4 min']);
    expect(said({ heron: 2 })[0]).toBe('after every 2 subs of heron');
    expect(said({ heron: 2, wren: 2 })[0]).toBe('after 2 subs on each train, once all are idle');
    expect(said({ heron: 2, wren: 3, crane: 4 }, { wren: 119_000 })).toEqual([
      'after 2 subs on heron, 3 subs on wren and 4 subs on crane, once all are idle',
      'every 10.4 min',
      'wren waits 119 s',
    ]);
  });

  it('has a line for each block of the nights to come, that ends between no train and its filter on a page', () => {
    const cell = planView(PLAN).coming?.rows[0]?.cells[2];
    expect([cell?.text, ...(cell?.lines ?? [])]).toEqual([
      '18:00–19:00 IC 1396, heron\u00a0Ha',
      '19:00–19:30 IC 1396, heron\u00a0Ha',
      `19:30–06:00 free (10.5 h): ${WHY}`,
    ]);
    expect(planText(PLAN)).toContain('18:00–19:00 IC 1396, heron Ha');
  });

  it('says why hours are left free, in text and table, for this night and those after it', () => {
    expect(planText(PLAN)).toContain(`\n19:30–06:00  free (10.5 h): ${WHY}\n`);
    expect(planText(PLAN)).toContain(`    19:30–06:00 free (10.5 h): ${WHY}\n`);
    const row = planView(PLAN).tonight?.rows.at(-1)?.cells;
    expect(row?.map(({ text }) => text)).toEqual(['19:30–06:00', `free: ${WHY}`]);
    const { nights } = toPlanJson(PLAN, { version: '1' });
    expect(nights[0]?.free).toMatchObject([
      { begin: '2026-11-25T19:30:00.000Z', end: '2026-11-26T06:00:00.000Z', why: PLAN.nights[0]?.free[0]?.why },
    ]);
  });

  const night = (more: Partial<PlannedNight>): PlannedNight => ({
    date: '2026-11-25',
    window: interval(DUSK, DUSK + 12 * HOUR),
    moonIllumination: 0.5,
    moonUp: [],
    shortOfBest: 0,
    blocks: [],
    free: [],
    lines: [],
    ...more,
  });
  const left = { target: 'M 33', filter: 'L', train: null, lacksHours: 3, why: 'sky' } as const;
  const moonlit = night({
    free: [{ span: interval(DUSK, DUSK + 12 * HOUR), why: [{ targets: ['M 33'], reasons: ['moon'] }] }],
  });

  it.each<[string, Partial<Plan>, string]>([
    [
      'a night without darkness',
      { nights: [night({ window: null })], left: [left] },
      'It does not get dark on this night.',
    ],
    ['no goals', { nights: [night({})] }, 'Nothing is needed: every goal is reached, or no target has one.'],
    [
      'a moonlit night',
      { nights: [moonlit], left: [left] },
      'Nothing is planned for this night: M 33 in too much moonlight.',
    ],
  ])('says of %s why nothing is planned', (_, more, sentence) => {
    const plan = { ...PLAN, ...more };
    expect(planText(plan)).toContain(`\n${sentence}\n`);
    expect(planView(plan)).toMatchObject({ tonight: null, nothing: sentence });
    expect(summaryOf(plan)).toBe(sentence);
  });

  it('says whose hours are gained: of those that rest none', () => {
    expect(summaryOf(PLAN)).toBe('IC 1396 in Ha: 1.5 h on heron, if the night is clear.');
    const both = { ...block(0, 1, 72, 70), trains: ['heron', 'wren'].flatMap((train) => exposing(train)) };
    const plan = { ...PLAN, nights: PLAN.nights.map((one) => ({ ...one, blocks: [both] })) };
    expect(summaryOf(plan)).toBe('IC 1396 in Ha: 1.5 h on both trains together, if the night is clear.');
    const three = { ...plan, trains: ['heron', 'wren', 'crane'] };
    expect(summaryOf(three)).toBe('IC 1396 in Ha: 1.5 h on heron and wren together, if the night is clear.');
  });

  it('says of the nights after the last one with a block what becomes of them', () => {
    const nights = [...PLAN.nights, { ...moonlit, date: '2026-11-27' }];
    expect(planText({ ...PLAN, nights, left: [left] })).toContain(
      'From 27 Nov 2026 on nothing is planned: what remains, and why, is listed below.',
    );
    expect(planText({ ...PLAN, nights })).toContain('From 27 Nov 2026 on nothing is planned: every goal is reached.');
  });

  it.each<[LeftReason, string]>([
    ['little', 'too little for a filter change'],
    ['no-place', 'its coordinates are not known: give them in goals.yaml'],
    ['never-up', 'not above its limit in darkness on any of these nights'],
    ['never-dark', 'it does not get dark on any of these nights'],
    ['no-train', 'no train that the goal is for has that filter'],
    ['sky', 'Moon or twilight prevents it on all of these nights'],
    ['moon-effort', 'the Moon leaves too little of these nights to be worth slewing to it'],
    ['effort', 'the free time is too short to be worth slewing to it'],
    ['time', 'these nights are not long enough for all'],
  ])('says of what is left for %s why', (why, sentence) => {
    const plan = { ...PLAN, left: [{ ...left, why }] };
    expect(planText(plan)).toContain(`  M 33 L: 3.0 h, ${sentence}\n`);
    expect(planView(plan).left?.rows[0]?.cells.at(-1)?.text).toBe(sentence);
  });
});
