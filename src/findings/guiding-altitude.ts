/** Guiding that gets worse as the target gets lower. */
import { counted, CAUTION, extended, itemAt } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { arcsec, guidedFrames, usualRms } from './guided-frames.js';
import { exposedMs, exposures } from './trains.js';
import { frameLinks } from './wording.js';

export const guidingAltitude: FindingModule<{
  readonly lowDeg: number;
  readonly highDeg: number;
  readonly ratio: number;
  readonly correlation: number;
  readonly minimumFrames: number;
}> = {
  id: 'guiding-altitude',
  title: 'Guiding rough at low altitude',
  needs: ['guiding-samples', 'pixel-scales', 'target-place', 'lights'],
  defaults: { lowDeg: 35, highDeg: 45, ratio: 1.3, correlation: 0.5, minimumFrames: 4 },
  find(night, { lowDeg, highDeg, ratio, correlation, minimumFrames }) {
    const frames = guidedFrames(night).flatMap((f) =>
      f.frame.sky === null ? [] : [extended(f, { altitudeDeg: f.frame.sky.altitudeDeg })],
    );
    const low = frames.filter((f) => f.altitudeDeg < lowDeg);
    const high = frames.filter((f) => f.altitudeDeg >= highDeg);
    const harmed = low.filter((f) => f.rough).map((f) => f.frame);
    if (low.length < minimumFrames || high.length < minimumFrames || harmed.length === 0) return [];
    const times = usualRms(low) / usualRms(high);
    if (times < ratio || -rankCorrelation(frames.map((f) => [f.altitudeDeg, f.guiding.totalRmsArcsec])) < correlation)
      return [];
    return [
      {
        title: `Guiding was ${times.toFixed(1)} times as rough below ${lowDeg}°`,
        costMs: exposedMs(harmed),
        frames: harmed.length,
        evidence: [
          `median RMS ${arcsec(usualRms(low))} below ${lowDeg}° and ${arcsec(usualRms(high))} above ${highDeg}° ` +
            `(${counted(low.length, 'frame')} and ${counted(high.length, 'frame')})`,
          `${counted(harmed.length, 'frame')} below ${lowDeg}° above the limit of ` +
            `${night.gathered.rules.roughGuidingPixels} px`,
        ],
        advice:
          'Image this target while it is higher, and another one before or after. Low in the sky, expose on the ' +
          'train with the coarser pixel scale and guide with longer exposures: there it is the air that moves.',
        confidence: 'medium',
        links: [
          { text: 'Guiding', anchor: 'guiding' },
          { text: 'Sky', anchor: 'sky' },
          ...frameLinks(harmed, night, 4),
        ],
        caution: CAUTION,
        minutes: exposures(harmed),
      },
    ];
  },
};

/** Spearman's rank correlation, −1 to 1; ties get their order. */
export function rankCorrelation(pairs: readonly (readonly [number, number])[]): number {
  const ranks = (of: 0 | 1): number[] => {
    const order = pairs.map((_, i) => i).sort((a, b) => itemAt(pairs, a)[of] - itemAt(pairs, b)[of]);
    const out = new Array<number>(pairs.length);
    for (const [rank, i] of order.entries()) out[i] = rank;
    return out;
  };
  const [x, y] = [ranks(0), ranks(1)];
  const n = pairs.length;
  const squares = x.reduce((sum, rank, i) => sum + (rank - itemAt(y, i)) ** 2, 0);
  return n < 2 ? NaN : 1 - (6 * squares) / (n * (n * n - 1));
}
