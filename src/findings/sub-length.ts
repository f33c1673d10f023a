/**
 * Subs too short to drown the read noise, or longer than they need be while frames are being lost.
 */
import { weighedTotals, type NightFacts, type SubLength, type Total } from '../model/index.js';
import type { FindingModule } from './finding.js';

export const subLength: FindingModule<{
  readonly minimumMinutes: number;
  readonly minimumShare: number;
  readonly clearlyMore: number;
}> = {
  id: 'sub-length',
  title: 'Length of the subs',
  needs: ['worth', 'read-noise'],
  // A sub that misses the tolerance by a hair is a good sub: common practice, no source.
  defaults: { minimumMinutes: 5, minimumShare: 0.02, clearlyMore: 0.03 },
  find(night, { minimumMinutes, minimumShare, clearlyMore }) {
    return weighedTotals(night).flatMap((total) => {
      const sub = total.worth.sub;
      if (!sub) return [];
      const { best } = sub;
      if (best.winMs < minimumMinutes * 60_000 || best.winMs < minimumShare * total.ms.kept) return [];
      const isShort = best.seconds > sub.seconds;
      if (isShort && sub.extraNoise < sub.tolerated + clearlyMore) return [];
      return [
        {
          title: isShort
            ? `${total.train}’s ${total.filter} subs of ${length(sub.seconds)} were too short`
            : `${total.train}’s ${total.filter} subs of ${length(sub.seconds)} were longer than they needed to be`,
          costMs: isShort ? readNoiseCost(total, sub) : sub.lostFrames * sub.seconds * 1000,
          evidence: [
            `${total.target}: ${rate(sub.skyElectronsPerSecond + sub.darkElectronsPerSecond)} electrons a ` +
              `second and pixel of sky and dark current against ${sub.readNoiseElectrons} electrons of read ` +
              `noise: ${percent(sub.extraNoise)} more noise than one long exposure`,
            `it would be ${Math.round(100 * sub.tolerated)} % at ${length(sub.enoughSeconds)}`,
            `${length(best.seconds)} would have had ${percent(best.extraNoise)} more noise, ` +
              (sub.lostFrames === 0
                ? 'with no frame lost to mount or guiding'
                : `with ${sub.lostFrames} frame${sub.lostFrames === 1 ? '' : 's'} lost at that length`) +
              ' ' +
              `and pauses of ${sub.pauseSeconds.toFixed(1)} s`,
          ],
          advice: isShort
            ? `Expose ${total.filter} longer, about ${length(best.seconds)}, if guiding and the brightest stars ` +
              `bear it, or use a camera mode with less read noise.${inStep(night)}`
            : `Expose ${total.filter} shorter, about ${length(best.seconds)}: each frame lost to the mount or ` +
              `the guiding then takes less with it, and read noise still does not matter.${inStep(night)}`,
          winMs: best.winMs,
          confidence: total.worth.sky === 'measured' ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Effective integration', anchor: 'effective' }],
        },
      ];
    });
  },
};

/** Kept time that read noise took: what is over the same time in one exposure without it. */
function readNoiseCost({ ms }: Total, { extraNoise }: SubLength): number {
  return ms.kept * (1 - 1 / (1 + extraNoise) ** 2);
}

function inStep({ gathered: { trains } }: NightFacts): string {
  return trains.length > 1 ? ' Keep one train’s subs a whole multiple of the other’s.' : '';
}

function length(value: number): string {
  return `${value.toFixed(value < 10 ? 1 : 0)} s`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;
}

function rate(value: number): string {
  return value.toPrecision(2);
}
