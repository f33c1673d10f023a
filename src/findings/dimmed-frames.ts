/** What the findings on lost light look up of a frame. */
import { ownValue, type JudgedFrame, type NightFacts } from '../model/index.js';

/** Dimmed frames farther apart than this lost their light to two things, ms. Common practice, no source. */
export const APART_MS = 15 * 60_000;

/**
 * Whether lost light harmed a frame, and nothing else: dimmed stars may be swollen ones, too. Stars that are few under
 * a bright sky lost none.
 */
export function isDimmed(frame: JudgedFrame, night: NightFacts): boolean {
  const kinds = frame.causes.map(({ kind }) => kind);
  const flux = fluxOf(frame, night);
  if (flux !== null && flux >= night.gathered.rules.dimmedDoubtfulFlux) return false;
  // Whatever filter its light came through, it was dimmed.
  const others = kinds.filter((kind) => kind !== 'other-filter');
  return others.includes('dimmed') && others.every((kind) => kind === 'dimmed' || kind === 'swollen');
}

/** The light that arrived on a frame as a share of that of its train's best; `null` where no stars tell it. */
export function fluxOf({ id }: JudgedFrame, night: NightFacts): number | null {
  return ownValue(night.stars?.frames, id)?.flux ?? null;
}
