/** Cameras rotated relative to each other: corners that only one of them sees. */
import { CAUTION, itemAt, type PairPointing } from '../model/index.js';
import type { FindingModule } from './finding.js';

/** A camera counts as rotated between two targets from this angle on, as in the registration. */
const ONE_TURN_DEG = 0.3;

export const pairRotation: FindingModule<{ readonly minimumGainPercent: number }> = {
  id: 'pair-rotation',
  title: 'Cameras rotated against each other',
  needs: ['pair-geometry'],
  // Less is not worth new flats (common practice, no source).
  defaults: { minimumGainPercent: 1 },
  find(night, { minimumGainPercent }) {
    return sameTurns((night.stars?.pairs ?? []).filter((pair) => gainOf(pair) >= minimumGainPercent)).map((pairs) => {
      const [best] = [...pairs].sort((a, b) => b.matched - a.matched);
      const { trains, geometry, matched } = best ?? itemAt(pairs, 0);
      const [pilot, companion] = trains;
      const degrees = Math.abs(geometry.turn.byDeg).toFixed(1);
      return {
        title: `The cameras of ${pilot} and ${companion} are rotated by ${degrees}° against each other`,
        costMs: 0,
        price: `${Math.max(...pairs.map(gainOf)).toFixed(0)} % of the field`,
        evidence: pairs.flatMap(commonField),
        advice:
          `Turn ${companion}’s camera by ${degrees}° ` +
          `${geometry.turn.byDeg < 0 ? 'from +y towards +x' : 'from +x towards +y'} of its own frames, by day, and ` +
          'take new flats. Halfway through the turn take a frame with each: if the angle has grown, turn the ' +
          'other way.',
        confidence: matched >= 30 ? ('high' as const) : ('medium' as const),
        links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
        caution: CAUTION,
      };
    });
  },
};

/** The gain of aligning the sides for the common field, percent of the field that gains most. */
function gainOf({ geometry: { overlapPercent, turn } }: PairPointing): number {
  return Math.max(turn.overlapPercent.a - overlapPercent.a, turn.overlapPercent.b - overlapPercent.b);
}

/** Two trains on several targets need one rotation: their pairs together, unless a camera was rotated between them. */
function sameTurns(pairs: readonly PairPointing[]): PairPointing[][] {
  const groups: PairPointing[][] = [];
  for (const pair of pairs) {
    const own = groups.find((group) => {
      const { trains, geometry } = itemAt(group, 0);
      const isOne = trains.every((train, i) => train === pair.trains[i]);
      return isOne && Math.abs(geometry.turn.byDeg - pair.geometry.turn.byDeg) <= ONE_TURN_DEG;
    });
    if (own) own.push(pair);
    else groups.push([pair]);
  }
  return groups;
}

function commonField({ target, trains: [pilot, companion], geometry, matched }: PairPointing): string[] {
  const { overlapPercent, turn } = geometry;
  return [
    `on ${target} ${overlapPercent.a.toFixed(1)} % of ${pilot}’s field and ` +
      `${overlapPercent.b.toFixed(1)} % of ${companion}’s are shared, from ${matched} stars`,
    `with the sides aligned ${turn.overlapPercent.a.toFixed(1)} % and ${turn.overlapPercent.b.toFixed(1)} %`,
  ];
}
