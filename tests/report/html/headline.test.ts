import { describe, expect, it } from 'vitest';
import { totalKey, type Night, type WorthAssessment } from '../../../src/model/index.js';
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

  it('blames no Moon where narrow bands were taken, as one does under it', () => {
    expect(headlineText(viewContext(moonlit(['Ha', 'OIII', 'Clear 3nm'])))).not.toMatch(/moonlight/);
  });
});
