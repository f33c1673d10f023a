/**
 * Sun, Moon and targets against tables made with astropy / ERFA (C); recipes and conventions in data/sky/README.md.
 * The tables' altitudes are geometric, so the comparison is with the places before refraction.
 */
import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import type { Site } from '../../src/model/index.js';
import { interval } from '../../src/model/index.js';
import { makeSkyObserver, skyNight } from '../../src/sky/index.js';

type Row = Readonly<Record<string, string>>;

const MOON_TOLERANCE_DEG = 0.005;
/** Tight enough to fail without aberration (up to 0.006°) or nutation (up to 0.005°). */
const STAR_TOLERANCE_DEG = 0.001;
const SUN_TOLERANCE_DEG = 0.001;
const ILLUMINATION_TOLERANCE = 0.0005;
const SUN_TOLERANCE_MS = 3000;
const MOON_TOLERANCE_MS = 5000;
const DAY_MS = 86_400_000;

const truth = table('astro-truth.csv');
const edges = table('edge-truth.csv');

describe.each(nightsOf(truth))('%s, evening of %s', (_site, _date, rows) => {
  const [first] = rows;
  const site = siteOf(first);
  const observer = makeSkyObserver(site);

  test('the Moon stands where ERFA has it, as seen from the site', () => {
    for (const row of rows) {
      const { moon } = observer.at(time(row, 'utc'));
      expect(Math.abs(moon.altitudeDeg - number(row, 'moon_alt_deg'))).toBeLessThan(MOON_TOLERANCE_DEG);
      expect(alongHorizon(moon.azimuthDeg - number(row, 'moon_az_deg'), moon.altitudeDeg)).toBeLessThan(
        MOON_TOLERANCE_DEG,
      );
      expect(Math.abs(moon.distanceKm - number(row, 'moon_dist_topo_km'))).toBeLessThan(100);
    }
  });

  test('the targets stand where ERFA has them', () => {
    for (const row of rows) {
      const place = observer.at(time(row, 'utc')).direction(targetOf(row));
      expect(Math.abs(place.altitudeDeg - number(row, 'target_alt_deg'))).toBeLessThan(STAR_TOLERANCE_DEG);
      expect(alongHorizon(place.azimuthDeg - number(row, 'target_az_deg'), place.altitudeDeg)).toBeLessThan(
        STAR_TOLERANCE_DEG,
      );
    }
  });

  test('separation, phase and the Sun agree', () => {
    for (const row of rows) {
      const position = observer.position(targetOf(row), time(row, 'utc'));
      expect(Math.abs(position.moonSeparationDeg - number(row, 'moon_sep_deg'))).toBeLessThan(MOON_TOLERANCE_DEG);
      expect(Math.abs(position.moonIllumination - number(row, 'moon_illum'))).toBeLessThan(ILLUMINATION_TOLERANCE);
      expect(Math.abs(position.moonPhaseAngleDeg - number(row, 'moon_phase_angle_deg'))).toBeLessThan(
        MOON_TOLERANCE_DEG,
      );
      expect(Math.abs(position.sunAltitudeDeg - number(row, 'sun_alt_deg'))).toBeLessThan(SUN_TOLERANCE_DEG);
    }
  });

  test('the Moon is not where a program without parallax would put it', () => {
    for (const row of rows) {
      const { moon } = observer.at(time(row, 'utc'));
      // The parallax is close to a degree and lowers the Moon by its cosine of the altitude.
      const missed = number(row, 'wrong_geo_moon_alt_deg') - moon.altitudeDeg;
      expect(missed).toBeGreaterThan(0.85 * Math.cos((moon.altitudeDeg * Math.PI) / 180));
    }
  });

  test('Sun and Moon pass their limits to the second', () => {
    const startMs = Date.parse(`${first.evening_date}T12:00:00Z`) - Math.round((site.longitudeDeg / 15) * 60) * 60_000;
    const sky = skyNight(observer, interval(startMs, startMs + DAY_MS), 'nautical');
    expectPassages(
      first,
      [
        ['sunset', sky.sunsetMs],
        ['sunrise', sky.sunriseMs],
        ['sun_m12_pm', sky.twilight.nautical.duskMs],
        ['sun_m12_am', sky.twilight.nautical.dawnMs],
        ['sun_m18_pm', sky.twilight.astronomical.duskMs],
        ['sun_m18_am', sky.twilight.astronomical.dawnMs],
      ],
      SUN_TOLERANCE_MS,
    );
    expectPassages(
      first,
      [
        ['moonrise', sky.moon.riseMs],
        ['moonset', sky.moon.setMs],
      ],
      MOON_TOLERANCE_MS,
    );
    // The table's minimum is the least of samples two minutes apart.
    expect(Math.abs(sky.window.sunMinimumDeg - number(first, 'sun_min_alt_deg'))).toBeLessThan(0.002);
  });
});

test('some Moons of the table are low enough for parallax to be plain in the separation', () => {
  const misses = truth.map((row) => {
    const { moonSeparationDeg } = makeSkyObserver(siteOf(row)).position(targetOf(row), time(row, 'utc'));
    return Math.abs(moonSeparationDeg - number(row, 'wrong_geo_moon_sep_deg'));
  });
  expect(misses.filter((miss) => miss > 0.5).length).toBeGreaterThan(20);
});

describe.each(nightsOf(edges))('%s, evening of %s', (_site, _date, [row]) => {
  test('Sun and Moon pass their limits when ERFA says, or not at all', () => {
    const startMs = time(row, 'start_utc');
    const sky = skyNight(siteOf(row), interval(startMs, startMs + DAY_MS), 'astronomical');
    const { civil, nautical, astronomical } = sky.twilight;
    expectPassages(
      row,
      [
        ['sunset_pm', sky.sunsetMs],
        ['sunset_am', sky.sunriseMs],
        ['civil_pm', civil.duskMs],
        ['civil_am', civil.dawnMs],
        ['nautical_pm', nautical.duskMs],
        ['nautical_am', nautical.dawnMs],
        ['astronomical_pm', astronomical.duskMs],
        ['astronomical_am', astronomical.dawnMs],
      ],
      SUN_TOLERANCE_MS,
    );
    expectPassages(
      row,
      [
        ['moonrise', sky.moon.riseMs],
        ['moonset', sky.moon.setMs],
      ],
      MOON_TOLERANCE_MS,
    );
    expect(Math.abs(sky.window.sunMinimumDeg - number(row, 'sun_min_alt_deg'))).toBeLessThan(0.002);
  });
});

function expectPassages(row: Row, passages: readonly (readonly [string, number | null])[], toleranceMs: number): void {
  for (const [column, atMs] of passages) {
    const expected = text(row, column);
    if (expected === '') expect(atMs, column).toBeNull();
    else expect(Math.abs((atMs ?? NaN) - Date.parse(expected)), column).toBeLessThan(toleranceMs);
  }
}

/** Rows of one site and evening together, as `[site, evening, rows]` with at least one row. */
function nightsOf(rows: readonly Row[]): (readonly [string, string, readonly [Row, ...Row[]]])[] {
  const nights = new Map<string, [Row, ...Row[]]>();
  for (const row of rows) {
    const key = `${text(row, 'site')} ${text(row, 'evening_date')}`;
    const night = nights.get(key);
    if (night) night.push(row);
    else nights.set(key, [row]);
  }
  return [...nights.values()].map((night) => [text(night[0], 'site'), text(night[0], 'evening_date'), night] as const);
}

function siteOf(row: Row): Site {
  return {
    name: text(row, 'site'),
    latitudeDeg: number(row, 'lat_deg'),
    longitudeDeg: number(row, 'lon_deg'),
    elevationM: number(row, 'height_m'),
    timezone: 'UTC',
    minimumAltitudeDeg: 0,
    horizon: [],
  };
}

function targetOf(row: Row): { raDeg: number; decDeg: number } {
  return { raDeg: number(row, 'target_ra_icrs_deg'), decDeg: number(row, 'target_dec_icrs_deg') };
}

/** A difference in azimuth as an angle on the sky. */
function alongHorizon(differenceDeg: number, altitudeDeg: number): number {
  const turned = ((differenceDeg + 540) % 360) - 180;
  return Math.abs(turned * Math.cos((altitudeDeg * Math.PI) / 180));
}

function table(file: string): Row[] {
  const csv = readFileSync(new URL(`data/sky/${file}`, import.meta.url), 'utf8');
  return Papa.parse<Row>(csv, { header: true, skipEmptyLines: true }).data;
}

function text(row: Row, column: string): string {
  const value = row[column];
  if (value === undefined) throw new Error(`the table has no column ${column}`);
  return value;
}

function number(row: Row, column: string): number {
  const value = text(row, column);
  if (value === '' || Number.isNaN(Number(value))) throw new Error(`${column} is no number: "${value}"`);
  return Number(value);
}

function time(row: Row, column: string): number {
  return Date.parse(text(row, column));
}
