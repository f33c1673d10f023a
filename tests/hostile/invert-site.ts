/**
 * Finding a site by least squares from whatever a record says of it: altitudes, the Sun at twilight, the Moon. The
 * attacker knows the targets' places, the altitude limit and the program, and may have to find when the night began.
 */
import type { NightRecord } from '../../src/record/index.js';
import { makeSkyObserver } from '../../src/sky/index.js';

/** One figure of the record that depends on where it was made. */
export interface Clue {
  /** What it would be at a place, if the record's clock were `shiftMs` late. */
  readonly at: (place: Place) => number;
  readonly value: number;
  readonly sigma: number;
}

export interface Place {
  latitudeDeg: number;
  longitudeDeg: number;
  /** Added to the record's instants to have true ones, ms. */
  shiftMs: number;
}

/** Where the figures say the site is, and how well they say it. */
export interface Found {
  readonly place: Place;
  /** Half the long axis of the ellipse that holds two of three cases, km; infinite where the figures leave a direction open. */
  readonly accuracyKm: number;
  /** How well they say the latitude alone, km. */
  readonly latitudeKm: number;
  readonly clues: number;
}

const KM_PER_DEG = 111.2;
/** A step of ten metres: what is asked of a place is kilometres. */
const SETTLED_DEG = 1e-4;
const SUN_BELOW = { civil: -6, nautical: -12, astronomical: -18 } as const;
/** Somewhere in ten degrees: a uniform spread has this standard deviation. */
const SITE_STEP_SIGMA_DEG = 10 / Math.sqrt(12);

const observerAt = ({ latitudeDeg, longitudeDeg }: Place) =>
  makeSkyObserver({
    name: '',
    latitudeDeg,
    longitudeDeg,
    elevationM: 1000,
    timezone: 'UTC',
    minimumAltitudeDeg: 25,
    horizon: [],
  });

/** A function that is asked for several figures of one place, one after another. */
function lastOf<T>(of: (place: Place) => T): (place: Place) => T {
  let last: { readonly place: Place; readonly is: T } | undefined;
  return (place) => {
    if (last?.place !== place) last = { place, is: of(place) };
    return last.is;
  };
}

/** Every figure of a record that could tell its site. */
export function cluesOf(record: NightRecord, limitDeg: number): Clue[] {
  const places = new Map(record.targets.map((t) => [t.name, { raDeg: t.ra, decDeg: t.dec }]));
  const clues: Clue[] = [];
  const middle = (frame: NightRecord['frames'][number]): number =>
    Date.parse(frame.begin) + Math.round(frame.seconds * 500);
  const sun = (instantMs: number | null | undefined, altitudeDeg: number, sigma: number): void => {
    if (instantMs == null || Number.isNaN(instantMs)) return;
    clues.push({
      at: (p) => observerAt(p).at(instantMs + p.shiftMs).sun.altitudeDeg,
      value: altitudeDeg,
      sigma,
    });
  };
  const frames = record.frames.filter((_, i) => i % Math.max(1, Math.floor(record.frames.length / 40)) === 0);
  for (const frame of frames) {
    const target = places.get(frame.target ?? '');
    if (!target) continue;
    const look = lastOf((p) => observerAt(p).position(target, middle(frame) + p.shiftMs));
    if (frame.altitude !== null)
      clues.push({ at: (p) => look(p).altitudeDeg, value: frame.altitude, sigma: sigmaOf(frame.altitude, 0.01) });
    if (frame.airmass !== null)
      clues.push({ at: (p) => look(p).airmass ?? 40, value: frame.airmass, sigma: sigmaOf(frame.airmass, 0.001) });
    if (frame.moonAltitude !== null)
      clues.push({
        at: (p) => look(p).moonAltitudeDeg,
        value: frame.moonAltitude,
        sigma: sigmaOf(frame.moonAltitude, 0.01),
      });
    if (frame.moonSeparation !== null)
      clues.push({
        at: (p) => look(p).moonSeparationDeg,
        value: frame.moonSeparation,
        sigma: sigmaOf(frame.moonSeparation, 0.01),
      });
  }
  if (record.sky) {
    const below =
      SUN_BELOW[
        record.window.kind === 'civil' || record.window.kind === 'astronomical' ? record.window.kind : 'nautical'
      ];
    for (const instant of [record.sky.dusk, record.sky.dawn]) sun(instant ? Date.parse(instant) : null, below, 0.02);
    for (const instant of [record.sky.moon.rise, record.sky.moon.set]) {
      if (!instant) continue;
      const atMs = Date.parse(instant);
      clues.push({ at: (p) => observerAt(p).at(atMs + p.shiftMs).moon.altitudeDeg, value: -0.57, sigma: 0.1 });
    }
  }
  // A change of verdict between two frames brackets the instant at which a limit was passed.
  for (const [kind, train] of ['low', 'twilight'].flatMap((k) => record.trains.map((t) => [k, t.id] as const))) {
    const own = record.frames.filter((f) => f.train === train);
    const has = (f: NightRecord['frames'][number]) => f.causes.some((c) => c.kind === kind);
    own.slice(1).forEach((after, i) => {
      const before = own[i];
      if (!before || has(before) === has(after)) return;
      const atMs = (middle(before) + middle(after)) / 2;
      const sigma = (((middle(after) - middle(before)) / 3_600_000) * 15) / Math.sqrt(12);
      const target = places.get((has(before) ? before : after).target ?? '');
      if (kind === 'twilight') sun(atMs, -12, sigma);
      else if (target)
        clues.push({ at: (p) => observerAt(p).position(target, atMs + p.shiftMs).altitudeDeg, value: limitDeg, sigma });
    });
  }
  if (record.site) {
    const { latitude, longitude } = record.site;
    clues.push({ at: (p) => p.latitudeDeg, value: latitude, sigma: SITE_STEP_SIGMA_DEG });
    clues.push({ at: (p) => p.longitudeDeg, value: longitude, sigma: SITE_STEP_SIGMA_DEG });
  }
  return clues;
}

/** Whole numbers were rounded, others were not. */
function sigmaOf(value: number, exact: number): number {
  return Number.isInteger(value) ? 1 / Math.sqrt(12) : exact;
}

/**
 * Gauss–Newton with steps held back where they do not help.
 *
 * @param isClockKnown false where the record's times count from an unknown instant
 */
export function invert(clues: readonly Clue[], start: Place, isClockKnown: boolean): Found {
  const keys = isClockKnown
    ? (['latitudeDeg', 'longitudeDeg'] as const)
    : (['latitudeDeg', 'longitudeDeg', 'shiftMs'] as const);
  const unit = { latitudeDeg: 1e-3, longitudeDeg: 1e-3, shiftMs: 10_000 };
  const residuals = (p: Place): number[] => clues.map((c) => (c.value - c.at(p)) / c.sigma);
  const cost = (r: readonly number[]): number => r.reduce((s, v) => s + v * v, 0);
  const normal = (p: Place, r: readonly number[]) => {
    const columns = keys.map((key) => {
      const moved = residuals({ ...p, [key]: p[key] + unit[key] });
      return moved.map((v, i) => (v - (r[i] ?? 0)) / unit[key]);
    });
    const matrix = columns.map((a) => columns.map((b) => a.reduce((s, v, i) => s + v * (b[i] ?? 0), 0)));
    return { matrix, gradient: columns.map((a) => -a.reduce((s, v, i) => s + v * (r[i] ?? 0), 0)) };
  };
  let place = start;
  let left = residuals(place);
  for (let round = 0; round < 25; round++) {
    const { matrix, gradient } = normal(place, left);
    const inverse = invertMatrix(matrix);
    if (!inverse) return { place, accuracyKm: Infinity, latitudeKm: Infinity, clues: clues.length };
    const step = inverse.map((row) => row.reduce((s, v, i) => s + v * (gradient[i] ?? 0), 0));
    let share = 1;
    const along = (f: number): Place => {
      const moved = { ...place };
      for (const [i, key] of keys.entries()) moved[key] += f * (step[i] ?? 0);
      return moved;
    };
    let next = along(share);
    let after = residuals(next);
    while (share > 1e-3 && cost(after) > cost(left)) {
      share /= 2;
      next = along(share);
      after = residuals(next);
    }
    // No step helps: this is the place.
    if (cost(after) > cost(left)) break;
    [place, left] = [next, after];
    if (Math.abs(share * (step[0] ?? 0)) + Math.abs(share * (step[1] ?? 0)) < SETTLED_DEG) break;
  }
  const inverse = invertMatrix(normal(place, left).matrix);
  return {
    place,
    accuracyKm: inverse ? longAxisKm(inverse, place.latitudeDeg) : Infinity,
    latitudeKm: inverse ? Math.sqrt(inverse[0]?.[0] ?? Infinity) * KM_PER_DEG : Infinity,
    clues: clues.length,
  };
}

function longAxisKm(covariance: readonly (readonly number[])[], latitudeDeg: number): number {
  const east = KM_PER_DEG * Math.cos((latitudeDeg * Math.PI) / 180);
  const a = (covariance[0]?.[0] ?? 0) * KM_PER_DEG ** 2;
  const b = (covariance[1]?.[1] ?? 0) * east ** 2;
  const c = (covariance[0]?.[1] ?? 0) * KM_PER_DEG * east;
  return Math.sqrt((a + b) / 2 + Math.hypot((a - b) / 2, c));
}

/** Gauss–Jordan; `null` for a matrix that has no inverse. */
function invertMatrix(matrix: readonly (readonly number[])[]): number[][] | null {
  const n = matrix.length;
  const scale = matrix.map((row, i) => Math.sqrt(row[i] ?? 0));
  if (scale.some((s) => !(s > 0))) return null;
  const rows = matrix.map((row, i) => [
    ...row.map((v, j) => v / ((scale[i] ?? 1) * (scale[j] ?? 1))),
    ...matrix.map((_, j) => (i === j ? 1 : 0)),
  ]);
  for (let col = 0; col < n; col++) {
    const pivot = rows
      .slice(col)
      .reduce((best, row) => (Math.abs(row[col] ?? 0) > Math.abs(best[col] ?? 0) ? row : best));
    const at = rows.indexOf(pivot);
    const divisor = pivot[col] ?? 0;
    if (Math.abs(divisor) < 1e-12) return null;
    rows[at] = rows[col] ?? [];
    rows[col] = pivot.map((v) => v / divisor);
    rows.forEach((row, i) => {
      const factor = row[col] ?? 0;
      if (i !== col) rows[i] = row.map((v, j) => v - factor * (rows[col]?.[j] ?? 0));
    });
  }
  return rows.map((row, i) => row.slice(n).map((v, j) => v / ((scale[i] ?? 1) * (scale[j] ?? 1))));
}

/** Distance of two places, km. */
export function distanceKm(a: Pick<Place, 'latitudeDeg' | 'longitudeDeg'>, b: typeof a): number {
  const rad = Math.PI / 180;
  const s =
    Math.sin(((b.latitudeDeg - a.latitudeDeg) * rad) / 2) ** 2 +
    Math.cos(a.latitudeDeg * rad) *
      Math.cos(b.latitudeDeg * rad) *
      Math.sin(((b.longitudeDeg - a.longitudeDeg) * rad) / 2) ** 2;
  return 2 * 6371 * Math.asin(Math.sqrt(s));
}
