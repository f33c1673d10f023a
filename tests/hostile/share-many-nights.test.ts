/**
 * A year of nights, shared: the lengths of nights over the seasons tell a latitude, the Moon a longitude. The attack is a
 * fit of all that a progress page says of darkness, on the worst of cases, nights that were used from dusk to dawn.
 */
import { describe, expect, it } from 'vitest';
import { parseGoals } from '../../src/config/index.js';
import { lookAhead } from '../../src/look-ahead.js';
import { hull, type ArchivedSite, type Interval, type NightSummary } from '../../src/model/index.js';
import { planAhead } from '../../src/plan-ahead.js';
import { sharePlan } from '../../src/plan/index.js';
import { progressOf, shareOutlook, shareProgress } from '../../src/progress/index.js';
import { planText, progressPages, toPlanJson, toProgressJson } from '../../src/report/index.js';
import { shareNights } from '../../src/share-nights.js';
import { darkStretches, makeSkyObserver, nightSpan, nightZone } from '../../src/sky/index.js';
import { hoursOf, summaryOf } from '../support/records.js';
import { distanceKm, invert, type Clue, type Place } from './invert-site.js';

const NEAREST_KM = 100;
const HOME = { latitudeDeg: 40.42, longitudeDeg: -1.12 };
/** In the same square of ten degrees, 870 km off. */
const AWAY = { latitudeDeg: 47.6, longitudeDeg: -6.3 };
const NOW_MS = Date.UTC(2026, 10, 25, 12);
const DATES = Array.from({ length: 12 }, (_, i) =>
  new Date(Date.UTC(2025, 10, 20) + i * 30 * 86_400_000).toISOString().slice(0, 10),
);
const { book } = parseGoals(
  'goals.yaml',
  'targets: [ { name: NGC 281, ra: "00:52:59", dec: "+56:37:19", goals: { Ha: 200h, L: 200h } } ]',
);

type Position = Pick<Place, 'latitudeDeg' | 'longitudeDeg'>;

function darkAt({ latitudeDeg, longitudeDeg }: Position, date: string): Interval {
  const observer = makeSkyObserver({
    name: '',
    latitudeDeg,
    longitudeDeg,
    elevationM: 1000,
    timezone: 'UTC',
    minimumAltitudeDeg: 0,
    horizon: [],
  });
  const dark = hull(darkStretches(observer, nightSpan(date, nightZone(undefined, longitudeDeg)), 'nautical'));
  if (!dark) throw new Error('it does not get dark');
  return dark;
}

/** The nights of a site; each was used as long as it is dark at `worked`. */
function nightsAt(place: Position, worked: Position = place): NightSummary[] {
  const site: ArchivedSite = {
    ...place,
    name: 'Cierzo Hill',
    elevationM: 1100,
    timezone: 'UTC',
    minimumAltitudeDeg: 25,
    horizon: [
      [0, 10],
      [180, 20],
    ],
    darkness: 'nautical',
  };
  return DATES.map((date) =>
    summaryOf(date, [hoursOf('NGC 281', 'Ha', 'heron', 3)], {
      site,
      window: darkAt(place, date),
      used: darkAt(worked, date),
    }),
  );
}

/** Everything that a progress page and a plan say, as they are or shared. */
async function pagesOf(nights: readonly NightSummary[], share: boolean) {
  const shown = share ? shareNights(nights) : { nights, siteKey: () => 'home' };
  const progress = progressOf(shown.nights, book, shown.siteKey);
  const ahead = lookAhead(progress, book, shown.siteKey, { nowMs: NOW_MS });
  const coming = planAhead(progress, ahead, book, shown.siteKey, { nowMs: NOW_MS, nights: 1 });
  const plan = share ? coming && sharePlan(coming) : coming;
  const outlook = share ? ahead && shareOutlook(ahead) : ahead;
  const seen = share ? shareProgress(progress) : progress;
  const options = { nowMs: NOW_MS, version: '0', share, plan, linkTo: () => null };
  return {
    html: (await progressPages(seen, outlook, options)).page,
    json: toProgressJson(seen, outlook, options),
    plan: plan && JSON.stringify(toPlanJson(plan, { version: '0' })),
    text: plan && planText(plan),
  };
}

type Pages = Awaited<ReturnType<typeof pagesOf>>;
type Reported = Pages['json'];

const ofHome = new Map<boolean, Promise<Pages>>();

/** The pages of the nights at home, made once. */
function pagesOfHome(share: boolean): Promise<Pages> {
  const made = ofHome.get(share) ?? pagesOf(nightsAt(HOME), share);
  ofHome.set(share, made);
  return made;
}

/** What a page says of the length of nights: a step's width for what was rounded, else to a twentieth of a second. */
function cluesOf(json: Reported, which: 'dark' | 'used', sigmaSeconds: number): Clue[] {
  return json.nights.map(({ night, darkSeconds, usedSeconds }) => ({
    at: (place) => {
      const { startMs, endMs } = darkAt(place, night);
      return (endMs - startMs) / 1000;
    },
    value: (which === 'dark' ? darkSeconds : usedSeconds) ?? 0,
    sigma: sigmaSeconds,
  }));
}

const START: Place = { latitudeDeg: HOME.latitudeDeg - 3, longitudeDeg: HOME.longitudeDeg + 4, shiftMs: 0 };
const TEN_MINUTES_SIGMA = 600 / Math.sqrt(12);

describe('a year of nights', () => {
  it('tells the site to a few kilometres by the lengths of its nights, where it is not shared', async () => {
    const { json } = await pagesOfHome(false);
    const found = invert(cluesOf(json, 'dark', 0.05), START, true);
    expect(found.accuracyKm).toBeLessThan(10);
    expect(distanceKm(found.place, HOME)).toBeLessThan(10);
  });

  it('shared, tells by its darkness the middle of the square, whatever the site is', async () => {
    const { json } = await pagesOfHome(true);
    const { place } = invert(cluesOf(json, 'dark', 0.05), START, true);
    expect(distanceKm(place, { latitudeDeg: 45, longitudeDeg: -5 })).toBeLessThan(10);
    expect(distanceKm(place, HOME)).toBeGreaterThan(5 * NEAREST_KM);
  });

  it('shared, tells by what was used of it a latitude at the most, and no longitude: 100 km are not reached', async () => {
    const { json } = await pagesOfHome(true);
    const found = invert(cluesOf(json, 'used', TEN_MINUTES_SIGMA), START, true);
    expect(found.accuracyKm).toBeGreaterThan(10 * NEAREST_KM);
    expect(found.latitudeKm).toBeGreaterThan(5);
  });

  it('is the same, letter by letter, for a site 800 km off where the same was done', async () => {
    expect(distanceKm(HOME, AWAY)).toBeGreaterThan(8 * NEAREST_KM);
    expect(await pagesOf(nightsAt(AWAY, HOME), true)).toEqual(await pagesOfHome(true));
    expect((await pagesOf(nightsAt(AWAY, HOME), false)).html).not.toBe((await pagesOfHome(false)).html);
  });
});
