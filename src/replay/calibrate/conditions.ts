/** The facts by which a replayed exposure is judged, besides the replay's own events. */
import {
  itemAt,
  interval,
  POINTING_KINDS,
  TWILIGHTS,
  UNGUIDED_KINDS,
  union,
  type AccountedNight,
  type Activity,
  type ActivityKind,
  type GuidingSeries,
  type Interval,
  imagedSpan,
} from '../../model/index.js';
import type { Conditions, GuidingSums } from '../course.js';
import { driftRateOf, evidenceOf } from './evidence.js';
import { cycleEndMs } from './idles.js';
import { resumesGuiding, type Stretch } from './stretches.js';

/** Step of the grid on which guiding samples are summed, ms: the resolution of an exposure's edges. */
const GRID_MS = 1000;

/** The conditions of a night. `stretches` are those that the replay runs itself. */
export function conditionsOf(night: AccountedNight, stretches: readonly Stretch[]): Conditions {
  const {
    timeline: { activities },
    gathered: { rules },
    sky: { almanac: sky },
  } = night;
  const isRun = (a: Activity): boolean =>
    stretches.some((s) => a.span.startMs < s.span.endMs && a.span.endMs > s.span.startMs);
  const of = (kinds: readonly ActivityKind[]): Activity[] => activities.filter((a) => kinds.includes(a.kind));
  const focus = of(['focus']);
  const byFocus = (a: Activity): boolean =>
    a.causedBy !== undefined &&
    focus.some((f) => f.train === a.causedBy && f.span.startMs < a.span.endMs && f.span.endMs > a.span.startMs);
  const runPauses = of(['guiding-rest']).filter(byFocus);
  const off = of(UNGUIDED_KINDS).filter((a) => !isRun(a) && !runPauses.includes(a) && !resumesGuiding(a, runPauses));
  const imaging = imagedSpan(night.accounts.lights);
  const isWithin = ({ span }: Activity): boolean =>
    imaging !== null && span.startMs > imaging.startMs && span.endMs < imaging.endMs;
  const disturbed = [
    ...night.accounts.dithers.map((c) => interval(c.beginMs, Math.max(c.beginMs, cycleEndMs(c)))),
    ...of([...POINTING_KINDS, ...UNGUIDED_KINDS, 'hold']).map((a) => a.span),
  ];
  return {
    motion: of(POINTING_KINDS)
      .filter((a) => !isRun(a))
      .map((a) => a.span),
    guidingOff: off.filter((a) => !isWithin(a)).map((a) => a.span),
    lapses: off.filter(isWithin).map((a) => a.span),
    guiding: night.gathered.guiding && runningSums(night.gathered.guiding, union(disturbed)),
    evidence: evidenceOf(night),
    drift: driftRateOf(night),
    curves: new Map(night.sky.curves.map((c) => [c.target, c.points])),
    sunLimitDeg: sky === null ? null : TWILIGHTS[sky.window.asked].sunAltitudeDeg,
    rules,
  };
}

/** Sums over the samples outside disturbances: the replay places the mount's excursions elsewhere. */
function runningSums(series: GuidingSeries, disturbed: readonly Interval[]): GuidingSums | null {
  const startMs = series.atMs[0];
  const endMs = series.atMs.at(-1);
  if (startMs === undefined || endMs === undefined) return null;
  const steps = Math.ceil((endMs - startMs + 1) / GRID_MS);
  const samples = new Float64Array(steps + 1);
  const squares = new Float64Array(steps + 1);
  let next = 0;
  for (let i = 0; i < series.atMs.length; i++) {
    const t = itemAt(series.atMs, i);
    while ((disturbed[next]?.endMs ?? Infinity) <= t) next++;
    const ra = itemAt(series.raArcsec, i);
    const dec = itemAt(series.decArcsec, i);
    if (t >= (disturbed[next]?.startMs ?? Infinity) || !Number.isFinite(ra) || !Number.isFinite(dec)) continue;
    const step = Math.floor((t - startMs) / GRID_MS) + 1;
    samples[step] = itemAt(samples, step) + 1;
    squares[step] = itemAt(squares, step) + ra * ra + dec * dec;
  }
  for (let step = 1; step <= steps; step++) {
    samples[step] = itemAt(samples, step) + itemAt(samples, step - 1);
    squares[step] = itemAt(squares, step) + itemAt(squares, step - 1);
  }
  return { startMs, stepMs: GRID_MS, samples, squares };
}
