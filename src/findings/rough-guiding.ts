/** Guiding that was rough all night, on both axes: nothing else on such a night is worth fixing first. */
import { CAUTION, counted, groupBy, median, percent, type NightFacts } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { arcsec, guidedFrames, usualRms, type GuidedFrame } from './guided-frames.js';
import { exposedMs, exposures } from './trains.js';
import { frameLinks } from './wording.js';

export const roughGuiding: FindingModule<{ readonly mostShare: number; readonly minimumFrames: number }> = {
  id: 'rough-guiding',
  title: 'Guiding rough all night',
  needs: ['guiding-samples', 'pixel-scales', 'lights'],
  // Up to half of the frames it counts as spells, which are another finding.
  defaults: { mostShare: 0.5, minimumFrames: 5 },
  find(night, { mostShare, minimumFrames }) {
    const frames = guidedFrames(night);
    const rough = frames.filter((f) => f.rough && !f.inBursts && f.frame.verdict !== 'kept');
    if (rough.length < minimumFrames || rough.length <= mostShare * frames.length) return [];
    // Frames that are doubtful for another reason as well would not have been kept.
    const alone = rough.filter((f) => f.roughAlone);
    const harmed = rough.map((f) => f.frame);
    return [
      {
        title:
          rough.length === frames.length
            ? `Guiding was too rough for all ${counted(frames.length, 'frame')}: RMS ${arcsec(usualRms(rough))}`
            : `Guiding was too rough for ${rough.length} of ${counted(frames.length, 'frame')}: RMS ` +
              `${arcsec(usualRms(rough))}`,
        costMs: exposedMs(harmed),
        frames: rough.length,
        evidence: [
          ...[...groupBy(rough, (f) => f.frame.train)].map(([train, own]) => perTrain(train, own, night)),
          `median RMS ${arcsec(median(rough.map((f) => f.guiding.raRmsArcsec)))} in right ascension and ` +
            `${arcsec(median(rough.map((f) => f.guiding.decRmsArcsec)))} in declination`,
          `${percent(rough.length / frames.length)} of the guided frames: not a spell of wind, but all night`,
        ],
        advice:
          'Fix the guiding before anything else: check the balance, dragging cables, the clutches, the ' +
          'polar alignment and the guider’s own focus and aggressiveness, one at a time. Look at the frames as well: ' +
          'if their stars are round, the limit in the rig file is too strict for this train.',
        winMs: exposedMs(alone.map((f) => f.frame)),
        // Whether the mount can guide better is unknown; so is the influence of the air.
        confidence: 'low' as const,
        links: [{ text: 'Guiding', anchor: 'guiding' }, ...frameLinks(harmed, night, 4)],
        caution: CAUTION,
        minutes: exposures(harmed),
      },
    ];
  },
};

function perTrain(train: string, own: readonly GuidedFrame[], night: NightFacts): string {
  const scale = night.gathered.trains.find((t) => t.id === train)?.pixelScaleArcsec;
  const limit = night.gathered.rules.roughGuidingPixels;
  return (
    `${train}: ${counted(own.length, 'frame')}, median ${arcsec(usualRms(own))}` +
    (scale === undefined ? '' : ` against a limit of ${arcsec(limit * scale)} (${limit} px)`)
  );
}
