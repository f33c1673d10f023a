/**
 * What became of a simulated frame, by the harms done to it; the rules are those of the design, written here a second
 * time.
 */
import { driftAt } from './guiding-trace.js';
import type { GuidingOff, Harm, SimulatedFrame, Simulation } from './simulation.js';

/** Where guiding was seen to leave its star: what it draws on a star of this sigma, arcseconds, decides. */
export type Seen = { readonly sigmaArcsec: number } | 'not-seen';

export function trueVerdict(
  frame: SimulatedFrame,
  { guidingOff, strays }: Pick<Simulation, 'guidingOff' | 'strays'>,
  seen: Seen,
): { verdict: 'kept' | 'doubtful' | 'lost'; harms: Harm[] } {
  const unguided = guidingOff
    .map((off) => ({ off, ms: Math.min(frame.endMs, off.toMs) - Math.max(frame.beginMs, off.fromMs) }))
    .filter(({ ms }) => ms > 0);
  const offMs = unguided.reduce((sum, { ms }) => sum + ms, 0);
  const byGuiding =
    offMs <= 2000
      ? 'kept'
      : seen === 'not-seen'
        ? byDuration(frame, offMs)
        : byTrail(frame, guidingOff, seen.sigmaArcsec);
  const harms: Harm[] = [];
  if (byGuiding !== 'kept')
    for (const { off } of unguided)
      harms.push({ kind: 'guiding-off', fromMs: off.fromMs, toMs: off.toMs, causedBy: off.causedBy });
  const moved = strays.filter((stray) => stray.fromMs < frame.endMs && stray.toMs > frame.beginMs);
  for (const { fromMs, toMs } of moved) harms.push({ kind: 'mount-motion', fromMs, toMs });
  if (frame.aborted) harms.push({ kind: 'cut-short', fromMs: frame.beginMs, toMs: frame.endMs });
  return { verdict: frame.aborted || moved.length > 0 ? 'lost' : byGuiding, harms };
}

function byDuration({ beginMs, endMs }: SimulatedFrame, offMs: number): 'doubtful' | 'lost' {
  return offMs > Math.max(10_000, 0.05 * (endMs - beginMs)) ? 'lost' : 'doubtful';
}

/** The spread of the field's places over many instants of the exposure, along the one line that it moves on. */
function byTrail(
  { beginMs, endMs }: SimulatedFrame,
  guidingOff: readonly GuidingOff[],
  sigmaArcsec: number,
): 'kept' | 'doubtful' | 'lost' {
  const instants = 5000;
  let [sum, squares] = [0, 0];
  for (let i = 0; i < instants; i++) {
    const place = driftAt(beginMs + ((i + 0.5) / instants) * (endMs - beginMs), guidingOff);
    sum += place / instants;
    squares += place ** 2 / instants;
  }
  const elongation = 1 - 1 / Math.sqrt(1 + (squares - sum ** 2) / sigmaArcsec ** 2);
  return elongation < 0.05 ? 'kept' : elongation > 0.2 ? 'lost' : 'doubtful';
}
