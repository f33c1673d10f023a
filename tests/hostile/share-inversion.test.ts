import { describe, expect, it } from 'vitest';
import type { Night } from '../../src/model/index.js';
import { toRecord, type NightRecord } from '../../src/record/index.js';
import { shareNight } from '../../src/share.js';
import { some } from '../support/runs.js';
import { sampleNight } from '../support/sample-night.js';
import { cluesOf, distanceKm, invert, type Found, type Place } from './invert-site.js';

const NEAREST_KM = 100;
const json = (record: NightRecord): NightRecord => JSON.parse(JSON.stringify(record)) as NightRecord;

function siteOf({ gathered: { site } }: Night): Place {
  if (!site) throw new Error('the night has no site');
  return { latitudeDeg: site.latitudeDeg, longitudeDeg: site.longitudeDeg, shiftMs: 0 };
}

/** The attack on a record that hides its site but for what its figures say; starts some degrees off. */
function attack(record: NightRecord, night: Night, shiftMs: number | null): Found {
  const site = siteOf(night);
  const start = { latitudeDeg: site.latitudeDeg - 3, longitudeDeg: site.longitudeDeg + 4, shiftMs: shiftMs ?? 0 };
  return invert(cluesOf(record, night.gathered.site?.minimumAltitudeDeg ?? 25), start, shiftMs === null);
}

describe.each(some(['headers-only', 'twin-night', 'mixed-dialects'], 2))('the site of %s', (name) => {
  it('is found within 10 km from a record that is not shared, though its site is taken out', async () => {
    const night = await sampleNight(name);
    const found = attack({ ...json(toRecord(night, '0', false)), site: null }, night, null);
    expect(found.clues).toBeGreaterThan(50);
    expect(found.accuracyKm).toBeLessThan(10);
    expect(distanceKm(found.place, siteOf(night))).toBeLessThan(10);
  });

  it('is not found better than to 100 km from a shared one, even starting from when the night truly began', async () => {
    const night = await sampleNight(name);
    const shared = json(toRecord(shareNight(night), '0', false));
    const first = night.accounts.lights[0]?.exposure.startMs ?? NaN;
    const shiftMs = first - Date.parse(shared.frames[0]?.begin ?? '');
    const clues = cluesOf(shared, night.gathered.site?.minimumAltitudeDeg ?? 25);
    const start = { latitudeDeg: shared.site?.latitude ?? 0, longitudeDeg: shared.site?.longitude ?? 0, shiftMs };
    const found = invert(clues, start, false);
    expect(found.accuracyKm).toBeGreaterThan(NEAREST_KM);
    // Nor by somebody who knows when it began: then only the square around the site remains.
    expect(invert(clues, start, true).accuracyKm).toBeGreaterThan(NEAREST_KM);
    expect(distanceKm(found.place, siteOf(night))).toBeGreaterThan(NEAREST_KM);
  });

  it('is revealed by no instant: all times count from the first exposure', async () => {
    const night = await sampleNight(name);
    const text = JSON.stringify(toRecord(shareNight(night), '0', false));
    const base = Date.parse(`${night.date}T00:00:00Z`);
    const instants = [...text.matchAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g)].map(([t]) => Date.parse(t));
    expect(Math.min(...instants.filter((t) => t >= base))).toBe(base);
    const real = night.accounts.lights.map((f) => new Date(f.exposure.startMs).toISOString());
    expect(real.filter((t) => text.includes(t))).toEqual([]);
  });
});
