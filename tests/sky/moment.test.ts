import { AstroTime, Body, Equator, Horizon, Observer } from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import { makeSkyObserver } from '../../src/sky/index.js';
import { elevationOf, separationDeg } from '../../src/model/index.js';
import { inventedSite, M_33, ms, NGC_281 } from './invented-site.js';

const INSTANTS = ['2026-10-14T17:30:00Z', '2026-10-15T02:00:00Z', '2027-02-20T23:00:00Z', '1999-06-01T12:00:00Z'];

describe.each(INSTANTS)('the sky of %s', (iso) => {
  const site = inventedSite({ latitudeDeg: -33.2, longitudeDeg: 149.1, elevationM: 1100 });
  const observer = new Observer(site.latitudeDeg, site.longitudeDeg, elevationOf(site));
  const time = new AstroTime(new Date(iso));
  const moment = makeSkyObserver(site).at(ms(iso));

  // The library's own way from body to horizon is longer and repeats work: it is the check of the short one.
  test.each([
    ['Sun', Body.Sun],
    ['Moon', Body.Moon],
  ] as const)('has the %s where the library puts it, to 0.1″', (_name, body) => {
    const equator = Equator(body, time, observer, true, true);
    const horizon = Horizon(time, observer, equator.ra, equator.dec);
    const ours = body === Body.Sun ? moment.sun : moment.moon;
    expect(separationDeg(ours.azimuthDeg, ours.altitudeDeg, horizon.azimuth, horizon.altitude) * 3600).toBeLessThan(
      0.1,
    );
  });

  test('moves a star at right angles to the way of the Earth by the full constant of aberration, 20.5″', () => {
    const still = Equator(Body.Sun, time, observer, false, true);
    const towardsSun = { raDeg: still.ra * 15, decDeg: still.dec };
    const sunPlace = moment.direction(towardsSun);
    const sun = moment.sun;
    // The Sun's place has its aberration in it already; a star there, square to the Earth's way, has it still to come.
    const displaced = separationDeg(sun.azimuthDeg, sun.altitudeDeg, sunPlace.azimuthDeg, sunPlace.altitudeDeg) * 3600;
    expect(displaced).toBeGreaterThan(20);
    expect(displaced).toBeLessThan(21);
  });

  test('gives the Moon a disc and a distance that belong together', () => {
    const { distanceKm, semidiameterDeg } = moment.moon;
    expect(distanceKm).toBeGreaterThan(350_000);
    expect(distanceKm).toBeLessThan(413_000);
    expect(Math.sin((semidiameterDeg * Math.PI) / 180) * distanceKm).toBeCloseTo(1737.4, 6);
  });
});

describe('an observer', () => {
  test('answers the same for one target whatever it was asked before', () => {
    const at = ms('2026-10-14T22:00:00Z');
    const used = makeSkyObserver(inventedSite());
    used.position(M_33, at);
    used.at(at - 1);
    const [again, fresh] = [used.position(NGC_281, at), makeSkyObserver(inventedSite()).position(NGC_281, at)];
    // To the last digits but two: the library keeps its nutation for a tenth of a second.
    for (const key of [
      'altitudeDeg',
      'azimuthDeg',
      'moonAltitudeDeg',
      'moonSeparationDeg',
      'sunAltitudeDeg',
    ] as const) {
      expect(again[key]).toBeCloseTo(fresh[key], 11);
    }
  });

  test.each([[{ latitudeDeg: NaN }], [{ latitudeDeg: 90.1 }], [{ longitudeDeg: Infinity }], [{ elevationM: NaN }]])(
    'is not made for %j',
    (changes) => {
      expect(() => makeSkyObserver(inventedSite(changes))).toThrow(/no such place/);
    },
  );

  test('refuses an instant that is none', () => {
    const observer = makeSkyObserver(inventedSite());
    expect(() => observer.at(NaN)).toThrow(/no such instant/);
    expect(() => observer.position(M_33, 1e20)).toThrow(RangeError);
  });

  test.each([90, -90])('can stand on the pole at latitude %d', (latitudeDeg) => {
    const observer = makeSkyObserver(inventedSite({ latitudeDeg }));
    expect(observer.at(ms('2026-10-14T22:00:00Z')).direction(NGC_281).altitudeDeg).toBeCloseTo(
      Math.sign(latitudeDeg) * NGC_281.decDeg,
      0,
    );
  });
});
