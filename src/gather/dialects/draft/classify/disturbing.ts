import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { decode, type Decoded, type Evidence } from './decode.js';
import { stateIndex } from './grammar.js';
import type { NightFit } from './night-fit.js';
import type { Sequence } from './sequences.js';

/** Correctly read logs score 0.9 and more; a lower score indicates a misreading. */
const SENSIBLE = 0.8;
/** Any classified kind. */
const TAKEN = 0.4;
/** Kinds with fewer lines disturb little, and those with a better fit not at all. */
const MIN_LINES = 5;
const FITS = 0.75;
/** How many kinds are tentatively left out at once, and how many permanently. */
const TRIED = 4;
const MOST = 2;
/** The same event must be reported by this many lines of other kinds, relative to its own. */
const OTHERS = 0.4;
/** Minimum improvement of the remaining kinds' score. */
const GAIN = 0.08;

/**
 * Classifies the kinds while excluding those that repeat, in between, what others report: a camera polled every minute
 * logs `exposing` each time. They are recognised by the others, whose timeline becomes more plausible without them.
 *
 * @param isHeld whether there are exposures to anchor the rest
 */
export function decodeUndisturbed(
  evidence: readonly Evidence[],
  night: NightFit,
  sequences: readonly Sequence[],
  isHeld: boolean,
): { readonly decoded: ReadonlyMap<Kind, Decoded>; readonly disturbing: ReadonlySet<Kind> } {
  const disturbing = new Set<Kind>();
  let left = evidence;
  let decoded: Map<Kind, Decoded> = decode(evidence, night, sequences);
  while (isHeld && disturbing.size < MOST && sense(decoded, disturbing) < SENSIBLE) {
    const takers = new Map<EventName, number>();
    for (const [kind, { ranking }] of decoded) {
      const [best] = isState(ranking) ? ranking : [];
      if (best !== undefined) takers.set(best[0], (takers.get(best[0]) ?? 0) + kind.count);
    }
    // If hardly another kind reports the same, it is not a repetition.
    const suspects = [...decoded]
      .filter(
        ([kind, { ranking, fit }]) =>
          !disturbing.has(kind) &&
          kind.count >= MIN_LINES &&
          fit < FITS &&
          ranking.slice(0, 1).some(([event]) => (takers.get(event) ?? 0) >= (1 + OTHERS) * kind.count),
      )
      .sort((a, b) => (1 - b[1].fit) * b[0].count - (1 - a[1].fit) * a[0].count)
      .slice(0, TRIED);
    let best: { kind: Kind; gain: number; left: readonly Evidence[]; decoded: Map<Kind, Decoded> } | null = null;
    for (const [kind] of suspects) {
      const rest = left.map((one) => (one.kind === kind ? { ...one, own: new Map(), prior: null } : one));
      const without = decode(rest, night, sequences);
      const others = new Set([...disturbing, kind]);
      const gain = sense(without, others) - sense(decoded, others);
      if (gain >= GAIN && gain > (best?.gain ?? 0)) best = { kind, gain, left: rest, decoded: without };
    }
    if (best === null) break;
    const { kind } = best;
    const before = decoded.get(kind);
    disturbing.add(kind);
    left = best.left;
    // Its apparent event is still offered.
    decoded = new Map(best.decoded).set(kind, before ?? { ranking: [], fit: 0, rival: Infinity });
  }
  return { decoded, disturbing };
}

/** Whether a timeline scores like a real night. */
export function isSensible(decoded: ReadonlyMap<Kind, Decoded>, disturbing: ReadonlySet<Kind>): boolean {
  return sense(decoded, disturbing) >= SENSIBLE;
}

function isState([best]: Decoded['ranking']): boolean {
  return best !== undefined && best[1] >= TAKEN && stateIndex(best[0]) !== undefined;
}

/** How well the lines follow each other as classified: the mean over all of them. */
function sense(decoded: ReadonlyMap<Kind, Decoded>, without: ReadonlySet<Kind>): number {
  let lines = 0;
  let sum = 0;
  for (const [kind, { ranking, fit }] of decoded) {
    if (without.has(kind) || !isState(ranking)) continue;
    lines += kind.count;
    sum += kind.count * fit;
  }
  return lines === 0 ? 1 : sum / lines;
}
