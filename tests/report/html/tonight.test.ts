import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/model/index.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { tonightView } from '../../../src/report/html/view/tonight.js';
import { altered } from '../../support/altered.js';
import { namedNight } from '../../support/nights.js';

const finding = (id: string, winMs: number | undefined): Finding => ({
  id,
  title: `${id} was seen`,
  costMs: 1,
  evidence: [],
  advice: `Do ${id} first. Then see.`,
  confidence: 'high',
  ...(winMs === undefined ? {} : { winMs }),
});
const view = (ranked: readonly Finding[]) =>
  tonightView(
    viewContext(altered(namedNight('twin-night'), { findings: { ranked } })),
    ranked.map(({ id }, index) => `${id}-${index}`),
  );

describe('tonight', () => {
  it('has at most three actions that win something, those without new darks first', () => {
    const { actions, none } = view([
      finding('unequal-exposures', 600_000),
      finding('moon-near', 0),
      finding('unexplained-time', undefined),
      finding('unused-darkness', 300_000),
      finding('settle-time', 240_000),
      // For the desk, and too little to change a habit for.
      finding('marginal-frames', 900_000),
      finding('slow-readout', 120_000),
    ]);
    expect(actions.map(({ anchor, win, what }) => [anchor, win, what])).toEqual([
      ['finding-unused-darkness-3', '5 min', 'Do unused-darkness first.'],
      ['finding-settle-time-4', '4 min', 'Do settle-time first.'],
      ['finding-unequal-exposures-0', '10 min', 'Do unequal-exposures first.'],
    ]);
    expect(none).toBe('');
    expect(view([finding('sub-length', 600_000)]).actions[0]?.needsDarks).toBe(true);
  });

  it('changes the lengths of subs in one way only', () => {
    const { actions } = view([finding('sub-length', 900_000), finding('unequal-exposures', 800_000)]);
    expect(actions.map(({ win }) => win)).toEqual(['15 min']);
  });

  it('names once what two findings advise alike, with what both win', () => {
    const { actions } = view([finding('dither-wait', 600_000), finding('dither-wait', 300_000)]);
    expect(actions.map(({ win }) => win)).toEqual(['15 min']);
  });

  it('says so when nothing is to be won', () => {
    expect(view([finding('moon-near', 0)])).toMatchObject({
      actions: [],
      none: expect.stringMatching(/nothing to change/),
    });
  });

  it('does not call a night good of which little is kept', () => {
    const night = namedNight('twin-night');
    const totals = night.accounts.totals.map((t) => ({ ...t, ms: { ...t.ms, kept: 0 } }));
    const poor = altered(night, { findings: { ranked: [] }, accounts: { totals } });
    expect(tonightView(viewContext(poor), []).none).toMatch(/not kept/);
  });

  it('draws each goal’s bar no longer than the goal', () => {
    for (const { bars } of tonightView(viewContext(namedNight('twin-night')), []).goals)
      for (const { width } of bars) expect(Number.parseFloat(width)).toBeLessThanOrEqual(100);
  });
});
