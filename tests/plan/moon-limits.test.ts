import { describe, expect, it } from 'vitest';
import { parseGoals } from '../../src/config/index.js';
import { itemAt, MOON_DISTANCE_DEG, moonDistanceKind, moonDistanceShare, overlapMs } from '../../src/model/index.js';
import { nightToPlan } from '../../src/plan-sky.js';
import { darkStretches, makeSkyObserver, nightSpan } from '../../src/sky/index.js';
import { inventedSite } from '../sky/invented-site.js';
import { inFull } from '../support/runs.js';

const SITE = { ...inventedSite(), elevationM: 1100 };
const PLACES = [
  { raDeg: 23.46, decDeg: 30.66 },
  { raDeg: 79, decDeg: 34.5 },
  { raDeg: 130, decDeg: 20 },
];
const { book } = parseGoals('goals.yaml', 'targets: []');
const observer = makeSkyObserver(SITE);

// Half a lunation: from a thin Moon to a full one.
const DATES = inFull([12, 14, 16, 18, 20, 22, 24, 26, 28], [14, 19, 24]).map((day) => `2026-11-${day}`);

describe.each(DATES)('what is planned under the Moon of %s', (date) => {
  it('is as far from it as the report asks of frames, all through', () => {
    const dark = itemAt(darkStretches(observer, nightSpan(date, SITE.timezone), 'nautical'), 0);
    const night = nightToPlan(date, dark, PLACES, observer, SITE.elevationM, book);
    let seen = 0;
    for (const { span, targets } of night.slots)
      targets.forEach(({ isUp, worth }, i) => {
        for (const filter of ['L', 'R', 'OIII', 'Ha', 'SII']) {
          if (!isUp || worth(filter) === 0) continue;
          for (let atMs = span.startMs; atMs <= span.endMs; atMs += 600_000) {
            const at = observer.position(itemAt(PLACES, i), atMs);
            if (at.moonAltitudeDeg <= 0) continue;
            const asked = MOON_DISTANCE_DEG[moonDistanceKind(filter)] * moonDistanceShare(at.moonIllumination);
            expect(at.moonSeparationDeg, filter).toBeGreaterThanOrEqual(asked - 0.2);
            seen++;
          }
        }
      });
    expect(seen).toBeGreaterThan(0);
    expect(night.slots.every(({ span }) => overlapMs(span, dark) > 0)).toBe(true);
  });
});
