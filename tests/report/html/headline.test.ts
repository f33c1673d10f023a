import { describe, expect, it } from 'vitest';
import { about, duration, sum, totalKey, type Night, type WorthAssessment } from '../../../src/model/index.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { headlineText } from '../../../src/report/html/view/headline.js';
import { altered } from '../../support/altered.js';
import { namedNight } from '../../support/nights.js';

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
    expect(headlineText(viewContext(moonlit(['L', 'R'])))).toMatch(/By the model moonlight took .+ of it\./);
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

  it('blames no Moon where narrow bands were taken, as one does under it', () => {
    expect(headlineText(viewContext(moonlit(['Ha', 'OIII', 'Clear 3nm'])))).not.toMatch(/moonlight/);
  });
});
