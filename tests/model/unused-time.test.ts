/**
 * Idle time by where it lies, against a Sun and a target computed here: broad and narrow bands on one mount, three
 * trains, latitudes where it hardly grows dark, and nights of twilight.
 */
import { describe, expect, it } from 'vitest';
import { takeAccount } from '../../src/account/index.js';
import { findAll } from '../../src/findings/index.js';
import { darknessFor, durationMs, idleTime, isNarrowband, sum, type Frame, type Night } from '../../src/model/index.js';
import { toRecord } from '../../src/record/index.js';
import { lossesOf } from '../../src/report/figures/losses.js';
import { viewContext } from '../../src/report/html/view/context.js';
import { ledgerView } from '../../src/report/html/view/ledger.js';
import { skyOver } from '../../src/sky/index.js';
import { HERON, HOUR, lights, MINUTE, nightOf, WREN } from '../findings/support.js';
import { altitudeDeg } from '../findings/followed/true-sky.js';
import { TWIN_NIGHT } from '../support/generator/scenarios.js';
import { CIERZO_HILL, NGC_281 } from '../support/nights.js';

const RAD = Math.PI / 180;
const STEP_MS = 15_000;
/** Refraction and a coarse Sun move an edge by a little, s. */
const TOLERANCE_S = 150;

/** The Sun's altitude without refraction, degrees: low-precision formulas of J. Meeus 1998; from memory. */
function sunAltitudeDeg(latitude: number, longitude: number, atMs: number): number {
  const days = (atMs - Date.UTC(2000, 0, 1, 12)) / 86_400_000;
  const anomaly = (357.529 + 0.98560028 * days) * RAD;
  const longitudeDeg = 280.459 + 0.98564736 * days + 1.915 * Math.sin(anomaly) + 0.02 * Math.sin(2 * anomaly);
  const obliquity = 23.439 * RAD;
  const declination = Math.asin(Math.sin(obliquity) * Math.sin(longitudeDeg * RAD));
  const ascension = Math.atan2(Math.cos(obliquity) * Math.sin(longitudeDeg * RAD), Math.cos(longitudeDeg * RAD));
  const hourAngle = (280.46062 + 360.985647366 * days + longitude) * RAD - ascension;
  return (
    Math.asin(
      Math.sin(latitude * RAD) * Math.sin(declination) +
        Math.cos(latitude * RAD) * Math.cos(declination) * Math.cos(hourAngle),
    ) / RAD
  );
}

/** South of the equator the target is one of that sky. */
const decDegAt = (latitudeDeg: number): number => Math.sign(latitudeDeg) * NGC_281.decDeg;

const OWL = { ...WREN, id: 'owl' };

/** A night of hand-laid lights under a real sky, its darkness asked for as nautical. */
function under(latitudeDeg: number, frames: readonly Frame[]): Night {
  const site = { ...CIERZO_HILL, latitudeDeg };
  const target = { ...NGC_281, decDeg: decDegAt(latitudeDeg) };
  const base = nightOf({ frames, site, targets: [target], trains: [HERON, WREN, OWL] });
  const sky = skyOver({ span: base.span, ...base.gathered, ...base.timeline });
  const accounts = takeAccount({ ...base.gathered, ...base.timeline, ...sky, stars: null });
  return { ...base, sky, accounts };
}

const taken = (train: string, filter: string, from: number, to: number) =>
  lights(train, { from, seconds: 297, pause: 3, count: Math.floor((to - from) / 300), filter });

/** What the ledger leaves unexplained of a train, sorted by the sky computed here, ms. */
function trueIdle(latitudeDeg: number, { accounts }: Night, train: string) {
  const own = accounts.lights.filter((f) => f.train === train);
  const [first, last] = [own[0], own.at(-1)];
  const idle = { twilight: 0, low: 0, before: 0, after: 0, between: 0 };
  const scenario = {
    ...TWIN_NIGHT,
    site: { ...TWIN_NIGHT.site, latitude: latitudeDeg },
    targets: TWIN_NIGHT.targets.map((t) => ({ ...t, decDeg: decDegAt(latitudeDeg) })),
  };
  for (const { account, span } of accounts.ledgers.find((l) => l.train === train)?.segments ?? []) {
    if (account !== 'unexplained' || !first || !last) continue;
    for (let atMs = span.startMs; atMs < span.endMs; atMs += STEP_MS) {
      const ms = Math.min(STEP_MS, span.endMs - atMs);
      const isBefore = atMs < first.exposure.startMs;
      const edge = isBefore ? first : last;
      const isDark =
        sunAltitudeDeg(latitudeDeg, scenario.site.longitude, atMs) <= (isNarrowband(edge.filter ?? '') ? -12 : -18);
      if (atMs >= first.exposure.startMs && atMs < last.exposure.endMs) idle.between += ms;
      else if (!isDark) idle.twilight += ms;
      else if (altitudeDeg(scenario, 'NGC 281', atMs) < 25) idle.low += ms;
      else idle[isBefore ? 'before' : 'after'] += ms;
    }
  }
  return idle;
}

/** Lights of three trains about the middle of the night, with an hour's gap on one of them. */
const MIXED = [
  ...taken('heron', 'L', 1.5 * HOUR, 5 * HOUR),
  ...taken('wren', 'Ha', 2 * HOUR, 3 * HOUR),
  ...taken('wren', 'OIII', 4 * HOUR, 6 * HOUR),
  ...taken('owl', 'Ha', 100 * MINUTE, 3 * HOUR),
  ...taken('owl', 'R', 3 * HOUR, 6.5 * HOUR),
];

describe.each([
  ['broad and narrow bands on three trains', 40.42],
  ['no astronomical darkness', -65],
  ['no nautical darkness', -72],
  ['a Sun that hardly sets', -79],
  ['a Sun that does not set', -86],
])('idle time under %s', (_what, latitudeDeg) => {
  const night = under(latitudeDeg, MIXED);
  const trains = night.gathered.trains.map(({ id }) => id);

  it.each(trains)('lies where Sun and target have it: %s', (train) => {
    const own = idleTime(night, train);
    const truth = trueIdle(latitudeDeg, night, train);
    const unexplainedMs = night.accounts.ledgers.find((l) => l.train === train)?.totalsMs.unexplained;
    expect(sum(Object.values(own ?? {}))).toBe(unexplainedMs);
    for (const place of ['twilight', 'low', 'before', 'after', 'between'] as const)
      expect(Math.abs((own?.[place] ?? NaN) - truth[place]) / 1000, `${train} ${place}`).toBeLessThan(TOLERANCE_S);
  });

  it('stands in record and ledger by its place, and no night is blamed for darkness that it did not have', () => {
    const record = toRecord(night, '0.0.0');
    const { table } = ledgerView(viewContext(night));
    for (const { train, between, before, after, twilight, low } of record.idle ?? []) {
      const seconds = record.ledger.find((row) => row.train === train && row.account === 'unexplained')?.seconds;
      expect(between + before + after + twilight + low).toBeCloseTo(seconds ?? NaN, 6);
      const labels = table.rows.map((row) => row.cells[0]?.text);
      if (after > 0) expect(labels).toContain('unused, after the last exposure');
      if (between > 0) expect(labels).toContain('unexplained, between exposures');
      if (twilight > 0) expect(labels).toContain('too light for the filter');
      expect(labels).not.toContain('unexplained');
    }
    const unused = findAll(night).ranked.filter((f) => f.id === 'unused-darkness');
    const isDark = (filter: string): boolean => darknessFor({ train: 'heron', filter }, night) !== null;
    for (const { title, evidence } of unused) {
      const text = [title, ...evidence].join(' ');
      if (!isDark('L')) expect(text).not.toMatch(/heron|astronomical/);
      if (!isDark('Ha')) expect(text).not.toMatch(/wren|nautical/);
    }
    const lostMs = lossesOf(night).find(({ label }) => label === 'unused darkness')?.ms ?? 0;
    if (!isDark('Ha')) {
      expect(unused).toEqual([]);
      expect(lostMs).toBe(0);
    }
    expect(lostMs).toBeLessThanOrEqual(durationMs(night.sky.window));
  });

  it('is advised of train by train, where it ends at other times for other filters', () => {
    const unused = findAll(night).ranked.filter((f) => f.id === 'unused-darkness');
    for (const { advice, evidence } of unused) {
      const ends = new Set([...advice.matchAll(/\d\d:\d\d/g)].map(([time]) => time));
      const named = trains.filter((id) => evidence[1]?.includes(id));
      // A time that holds for some of them says for whom.
      if (ends.size > 1) for (const id of named) expect(advice).toContain(id);
    }
  });
});
