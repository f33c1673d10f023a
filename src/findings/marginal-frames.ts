/**
 * Frames that would lower a stack made as a plain mean.
 */
import {
  about,
  duration,
  weighedOf,
  weighedTotals,
  type NightFacts,
  type WeighedFrame,
  UNNAMED,
} from '../model/index.js';
import { clock } from './wording.js';
import type { FindingModule } from './finding.js';

/** The report's section on effective integration lists all of them. */
const LISTED = 6;

export const marginalFrames: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'marginal-frames',
  title: 'Frames that lower a plain mean',
  needs: ['worth'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    return weighedTotals(night).flatMap(({ target, filter, train, frames, worth }) => {
      const marginal = weighedOf(night, worth.marginal);
      if (marginal.length < minimumFrames) return [];
      const winMs = worth.effectiveMs - worth.plainMeanMs;
      return [
        {
          title:
            `A plain mean of ${train}’s ${filter === UNNAMED ? '' : `${filter} `}frames of ${target} would waste ` +
            `${duration(winMs)}; ${marginal.length} of the ${frames.kept} would lower it`,
          costMs: winMs,
          frames: marginal.length,
          evidence: [
            `weighted, the kept frames are worth ${duration(worth.effectiveMs)}; a plain mean is worth ` +
              `${about(winMs)} less, and one without these ${about(worth.effectiveMs - worth.bestMeanMs)} less`,
            ...marginal.slice(0, LISTED).map((f) => frameLine(f, night)),
            ...(marginal.length > LISTED
              ? [`and ${marginal.length - LISTED} more, in the table of marginal frames`]
              : []),
          ],
          advice:
            'When stacking, weight every frame by its signal over the square of its noise instead of throwing ' +
            'any away: weighted, even the poorest adds a little.',
          winMs,
          confidence: worth.sky === 'measured' ? ('high' as const) : ('medium' as const),
          links: [
            { text: 'Effective integration', anchor: 'effective' },
            ...marginal
              .slice(0, LISTED)
              .map((f) => ({ text: clock(f.exposure.startMs, night), anchor: `frame-${f.id}` })),
          ],
        },
      ];
    });
  },
};

function frameLine({ exposure, worth }: WeighedFrame, night: NightFacts): string {
  return (
    `${clock(exposure.startMs, night)}: worth ${percent(worth.share)} of its exposure; ` +
    `${percent(worth.transparency)} of the light arrived, under a sky of ${worth.skyMagArcsec2.toFixed(1)} mag ` +
    'per square arcsecond'
  );
}

function percent(share: number): string {
  return `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;
}
