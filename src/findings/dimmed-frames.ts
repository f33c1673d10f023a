/** What the findings on lost light need to know about a frame. */
import { ownValue, type JudgedFrame, type NightFacts } from '../model/index.js';

/** Dimmed frames farther apart than this have separate causes, ms. Common practice, no source. */
export const APART_MS = 15 * 60_000;

/**
 * Whether a frame was harmed only by lost light: dimmed stars may be swollen as well. Few stars under a bright sky do
 * not mean lost light.
 */
export function isDimmed(frame: JudgedFrame, night: NightFacts): boolean {
  const kinds = frame.causes.map(({ kind }) => kind);
  const flux = fluxOf(frame, night);
  if (flux !== null && flux >= night.gathered.rules.dimmedDoubtfulFlux) return false;
  // Dimming affects every filter.
  const others = kinds.filter((kind) => kind !== 'other-filter');
  return others.includes('dimmed') && others.every((kind) => kind === 'dimmed' || kind === 'swollen');
}

/** The light on a frame as a fraction of its train's best; `null` without star measurements. */
export function fluxOf({ id }: JudgedFrame, night: NightFacts): number | null {
  return ownValue(night.stars?.frames, id)?.flux ?? null;
}
