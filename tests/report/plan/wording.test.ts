import { describe, expect, it } from 'vitest';
import { planText } from '../../../src/report/plan/text.js';
import { planView } from '../../../src/report/plan/view.js';
import { stillNeeded } from '../../../src/report/plan/wording.js';
import type { Plan, PlannedBlock } from '../../../src/model/index.js';
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
    lines: [
      { target: 'IC 1396', filter: 'Ha', train: null, addsHours: 1.2, lacksHours: 0 },
      { target: 'IC 1396', filter: 'SII', train: null, addsHours: 0.3, lacksHours: 2.25 },
    ],
  })),
};

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
    expect(text).toContain('wren: rests: no goal of this target asks for it');
  });

  it('has a line for each block of the nights to come', () => {
    const cell = planView(PLAN).coming?.rows[0]?.cells[2];
    expect([cell?.text, ...(cell?.lines ?? [])]).toEqual([
      '18:00–19:00 IC 1396, heron Ha',
      '19:00–19:30 IC 1396, heron Ha',
    ]);
  });
});
