import { extended, type JudgedFrame, type Night } from '../../src/model/index.js';
import { CLEAR_STARS } from '../support/starry-night.js';
import { span } from './support.js';

/** Below this share of its best light a frame counts as dimmed here. */
const DIMMED_BELOW = 0.7;

/** A night whose frames have these shares of their best light, judged so. @param untilSeconds when it ends */
export function dimmedNight(
  night: Night,
  frames: readonly Pick<JudgedFrame, 'id' | 'train'>[],
  fluxOf: (frame: Pick<JudgedFrame, 'id' | 'train'>) => number,
  untilSeconds: number,
): Night {
  const dimmed = {
    kind: 'dimmed' as const,
    verdict: 'doubtful' as const,
    by: 'pixels' as const,
    span: span(0, untilSeconds),
    overlapMs: 300_000,
    evidence: '',
    certainty: 'measured' as const,
    sources: [],
  };
  return {
    ...night,
    stars: {
      frames: Object.fromEntries(frames.map((f) => [f.id, { ...CLEAR_STARS, flux: fluxOf(f) }])),
      pairs: [],
      pointings: [],
      warnings: [],
    },
    accounts: {
      ...night.accounts,
      lights: night.accounts.lights.map((f) =>
        fluxOf(f) < DIMMED_BELOW ? extended(f, { verdict: 'doubtful' as const, causes: [dimmed] }) : f,
      ),
    },
  };
}
