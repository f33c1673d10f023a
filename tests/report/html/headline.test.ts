import { describe, expect, it } from 'vitest';
import { about, duration, sum, totalKey, type Night, type WorthAssessment } from '../../../src/model/index.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { headlineText } from '../../../src/report/html/view/headline.js';
import { altered } from '../../support/altered.js';
import { namedNight } from '../../support/nights.js';
import { sampleNight } from '../../support/sample-night.js';

/** The sample night through other filters, with half of all that was kept taken by the Moon. */
function moonlit(filters: readonly string[]): Night {
  const night = namedNight('twin-night');
  const totals = night.accounts.totals.map((t, i) => ({ ...t, filter: filters[i % filters.length] ?? '' }));
  const worths = totals.map((t) => [totalKey(t), { moonShutterMs: t.ms.kept / 2 }]);
  const worth = { totals: Object.fromEntries(worths), frames: {} } as unknown as WorthAssessment;
  return { ...altered(night, { accounts: { totals } }), worth };
}

describe('the headline', () => {
  it('says what moonlight took of broadband light', () => {
    expect(headlineText(viewContext(moonlit(['L', 'R'])))).toMatch(/By the model, moonlight cost .+ of it\./);
  });

  it('says how much of what was taken is not kept, and why', () => {
    const night = namedNight('twin-night');
    expect(headlineText(viewContext(night))).not.toMatch(/more is/);
    const lights = night.accounts.lights.map((f) => ({ ...f, verdict: 'doubtful' as const }));
    const totals = night.accounts.totals.map((t) => ({
      ...t,
      ms: { ...t.ms, kept: t.ms.kept / 2, doubtful: t.ms.doubtful + t.ms.kept / 2 },
    }));
    expect(headlineText(viewContext(altered(night, { accounts: { lights, totals } })))).toMatch(
      /kept on .+ together\. [\d.]+ h more is doubtful/,
    );
  });

  it('names the hours of one verdict, as the table of integration has them', () => {
    const night = namedNight('three-trains');
    const doubtfulMs = sum(night.accounts.totals.map(({ ms }) => ms.doubtful));
    const lostMs = sum(night.accounts.totals.map(({ ms }) => ms.lost));
    expect(duration(doubtfulMs)).not.toBe(duration(doubtfulMs + lostMs));
    expect(headlineText(viewContext(night))).toContain(`${about(doubtfulMs)} more is doubtful`);
  });

  it('says what the light is worth of which moonlight took most, whatever the filters', () => {
    const night = namedNight('twin-night');
    const under = (share: number): Night => {
      const totals = night.accounts.totals.map((t) => {
        const { kept } = t.ms;
        return [totalKey(t), { moonShutterMs: share * kept, lowMs: 0.041 * kept, highMs: 0.26 * kept }];
      });
      return { ...night, worth: { totals: Object.fromEntries(totals), frames: {} } as unknown as WorthAssessment };
    };
    expect(headlineText(viewContext(under(0.8)))).toContain(
      ' It is worth 4.1–26 % of the same hours under a dark moonless sky, by the model.',
    );
    expect(headlineText(viewContext(under(0.4)))).not.toMatch(/moonless/);
  });

  it('tells the waits at dithers, which a finding counts, from all waiting of a train for the other', async () => {
    const night = await sampleNight('twin-night');
    const [, all, , atDithers] =
      /(\d+ min) (heron waiting for wren) \((\d+ min) at dithers\)/.exec(headlineText(viewContext(night))) ?? [];
    expect(all).not.toBe(atDithers);
    expect(night.findings.ranked.map(({ title }) => title)).toContain(`heron waited ${atDithers} for dithers`);
  });

  it('blames no Moon where narrow bands were taken, as one does under it', () => {
    expect(headlineText(viewContext(moonlit(['Ha', 'OIII', 'Clear 3nm'])))).not.toMatch(/moonlight/);
  });
});
