/** What the guiding measures through a simulated night, and how an unguided field drifts. */
import type { Random } from './random.js';
import type { Scenario } from './scenario.js';
import type { GuidingOff, GuidingSample } from './simulation.js';

export const SLEW_MS = 42_000;
export const CENTRE_MS = 38_000;
/** An unguided field moves this fast, arcseconds a second, in this direction from east, degrees. */
const DRIFT_RATE = 0.12;
export const DRIFT_DIRECTION_DEG = 25;
/** The guiding's first look after it was off. */
const FIRST_LOOK_MS = 400;

/** How far an unguided field has moved. */
export const driftArcsec = (ms: number): number => (DRIFT_RATE * ms) / 1000;

/** How far an unguided field stands from its place, arcseconds; 0 while it is guided. */
export function driftAt(atMs: number, guidingOff: readonly GuidingOff[]): number {
  const off = guidingOff.find(({ fromMs, toMs }) => atMs >= fromMs && atMs < toMs);
  if (off === undefined) return 0;
  const gone = (atMs - off.fromMs) / (off.toMs - off.fromMs);
  return off.leaves === undefined ? (off.returns ?? 0) * (1 - gone) : off.leaves * gone;
}

/** Samples between two instants; none where guiding is off or clouds pass, and one where a stretch without it ends. */
export function guidingTrace(
  scenario: Scenario,
  guidingOff: readonly GuidingOff[],
  random: Random,
  beginMs: number,
  stopMs: number,
): GuidingSample[] {
  const every = scenario.guidingEverySeconds * 1000;
  if (every === 0) return [];
  const out: GuidingSample[] = [];
  const rough = (scenario.roughSpells ?? []).map((spell) => ({ ...spanOf(spell), sigma: spell.sigmaArcsec }));
  const { roughness = () => ({ ra: 1, dec: 1 }) } = scenario;
  const sigmaAt = (atMs: number): number =>
    (rough.find((r) => atMs >= r.fromMs && atMs < r.toMs)?.sigma ?? scenario.guidingSigmaArcsec) / Math.SQRT2;
  const clouds = scenario.clouds.map(spanOf).map(({ fromMs, toMs }) => ({ fromMs, toMs: toMs + SLEW_MS + CENTRE_MS }));
  const silent = [...guidingOff, ...clouds];
  for (let atMs = beginMs; atMs < stopMs; atMs += every) {
    if (silent.some((s) => atMs >= s.fromMs && atMs < s.toMs + 2 * FIRST_LOOK_MS)) continue;
    const sigma = sigmaAt(atMs);
    const { ra, dec } = roughness(atMs);
    out.push({ atMs, ra: random.normal(0, sigma * ra), dec: random.normal(0, sigma * dec) });
  }
  for (const { toMs, leaves } of guidingOff) {
    const atMs = toMs + FIRST_LOOK_MS;
    if (leaves === undefined || atMs >= stopMs) continue;
    const sigma = sigmaAt(atMs);
    const direction = (DRIFT_DIRECTION_DEG * Math.PI) / 180;
    out.push({
      atMs,
      ra: leaves * Math.cos(direction) + random.normal(0, sigma),
      dec: leaves * Math.sin(direction) + random.normal(0, sigma),
    });
  }
  return out.sort((a, b) => a.atMs - b.atMs);
}

function spanOf({ from, to }: { readonly from: string; readonly to: string }): { fromMs: number; toMs: number } {
  return { fromMs: Date.parse(from), toMs: Date.parse(to) };
}
