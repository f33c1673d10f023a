/** How many subs each train of a stretch takes: for the goal, and beyond it while another still needs the stretch. */
import type { OpenLine } from './lines.js';

/** What fits for a train that exposes. */
export interface Fitting {
  /** What the subs are for; `null` where nothing lacks them. */
  readonly line: OpenLine | null;
  /** Subs between two dithers. */
  readonly perCycle: number;
  /** Hours that one is expected to keep. */
  readonly keptHours: number;
  /** Subs that fit into the stretch. */
  readonly most: number;
}

export interface Subs {
  readonly subs: number;
  /** Kept hours that count towards the goal. */
  readonly addsHours: number;
  /** Kept hours beyond it. */
  readonly beyondHours: number;
}

/** Counts the subs and takes what they add from the lines. */
export function subsOf(fittings: readonly (Fitting | null)[]): (Subs | null)[] {
  const needed = neededOf(fittings);
  // The interval is over when the required exposures are done.
  const cycles = Math.max(0, ...fittings.map((one, i) => (one ? (needed[i] as number) / one.perCycle : 0)));
  return fittings.map((one, i) => {
    if (!one) return null;
    const { line, perCycle, keptHours, most } = one;
    const own = needed[i] as number;
    // Less than a cycle more is not mentioned.
    const subs = cycles - own / perCycle > (own > 0 ? 1 : 0) ? Math.min(most, Math.floor(cycles * perCycle)) : own;
    const kept = subs * keptHours;
    const addsHours = line === null ? 0 : Math.min(line.left, kept);
    if (line !== null) line.left -= addsHours;
    // The last sub for a goal goes a little beyond it.
    return { subs, addsHours, beyondHours: kept - addsHours < keptHours ? 0 : kept - addsHours };
  });
}

/** The subs that each goal still needs, of those that fit, train after train. */
function neededOf(fittings: readonly (Fitting | null)[]): number[] {
  const left = new Map<OpenLine, number>();
  return fittings.map((one) => {
    if (!one?.line || one.keptHours <= 0) return 0;
    const own = left.get(one.line) ?? one.line.left;
    const subs = Math.min(one.most, Math.ceil(own / one.keptHours - 1e-9));
    left.set(one.line, Math.max(0, own - subs * one.keptHours));
    return subs;
  });
}
