/** Spells of rough guiding on both axes on an otherwise quiet night: the signature of wind in a guiding log. */
import { CAUTION, counted, groupBy, interval, listed, median, type Activity, type NightFacts } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { arcsec, guidedFrames, usualRms, type GuidedFrame } from './guided-frames.js';
import { exposedMs, exposures } from './trains.js';
import { clock, firstOf, frameLinks, fromTo } from './wording.js';

export const guidingGusts: FindingModule<{
  readonly ratio: number;
  readonly bothAxes: number;
  readonly minimumFrames: number;
  readonly spellMinutes: number;
  readonly mostShare: number;
}> = {
  id: 'guiding-gusts',
  title: 'Spells of rough guiding',
  needs: ['guiding-samples', 'pixel-scales', 'lights'],
  defaults: { ratio: 1.5, bothAxes: 1.3, minimumFrames: 2, spellMinutes: 20, mostShare: 0.5 },
  find(night, { ratio, bothAxes, minimumFrames, spellMinutes, mostShare }) {
    const frames = guidedFrames(night);
    const calm = frames.filter((f) => !f.rough);
    const usual = usualRms(calm);
    const [ra, dec] = [median(calm.map((f) => f.guiding.raRmsArcsec)), median(calm.map((f) => f.guiding.decRmsArcsec))];
    // Raised on both axes, unlike backlash; well above the night's own calm level, unlike a mount that is rough all
    // night.
    const gusty = frames.filter(
      (f) =>
        f.rough &&
        !f.inBursts &&
        f.guiding.totalRmsArcsec >= ratio * usual &&
        f.guiding.raRmsArcsec >= bothAxes * ra &&
        f.guiding.decRmsArcsec >= bothAxes * dec,
    );
    const spells = spellsOf(gusty, spellMinutes * 60_000).filter((s) => s.length >= minimumFrames);
    const harmed = spells.flat().map((f) => f.frame);
    // Guiding that is rough for most of the night is not a spell.
    const roughMost = frames.length - calm.length > mostShare * frames.length;
    if (harmed.length === 0 || roughMost || harmed.length > mostShare * frames.length) return [];
    const windy = windHolds(night);
    const spans = spells.map((s) =>
      interval(Math.min(...s.map((f) => f.frame.exposure.startMs)), Math.max(...s.map((f) => f.frame.exposure.endMs))),
    );
    return [
      {
        title:
          spells.length === 1 && spans[0]
            ? `Guiding was rough from ${fromTo(spans[0], night)}`
            : `Guiding was rough in ${spells.length} spells`,
        costMs: exposedMs(harmed),
        frames: harmed.length,
        evidence: [
          ...firstOf(
            spells.map(
              (s, i) =>
                `${spans[i] ? fromTo(spans[i], night) : ''}: RMS ${arcsec(usualRms(s))}, largest error ` +
                `${arcsec(Math.max(...s.map((f) => f.guiding.peakArcsec)))}, over ${perTrain(s)}`,
            ),
          ),
          `median ${arcsec(usual)} over the other ${counted(calm.length, 'frame')}; both axes rose together`,
          ...(windy.length > 0
            ? [`the log records holds for wind at ${listed(windy.map((h) => clock(h.span.startMs, night)))}`]
            : []),
        ],
        advice:
          'Shield the mount, shorten dew shields and cable loops, or take shorter subs while it blows. ' +
          (windy.length > 0
            ? 'The holds in the log say it was the wind.'
            : 'It looks like gusts, or someone at the pier: compare with the wind.'),
        foldedAdvice: windy.length > 0 ? '' : 'The rough guiding looks like gusts: compare with the wind.',
        confidence: windy.length > 0 ? 'medium' : 'low',
        links: [{ text: 'Guiding', anchor: 'guiding' }, ...frameLinks(harmed, night, 4)],
        caution: CAUTION,
        minutes: exposures(harmed),
      },
    ];
  },
};

/** Holds for wind. */
function windHolds({ timeline }: NightFacts): Activity[] {
  return timeline.activities.filter((a) => a.kind === 'hold' && a.why !== undefined && /wind|gust|storm/i.test(a.why));
}

/** Frames no farther apart than the gap form one spell. */
function spellsOf(frames: readonly GuidedFrame[], gapMs: number): GuidedFrame[][] {
  const spells: GuidedFrame[][] = [];
  for (const frame of frames) {
    const spell = spells.at(-1);
    const endMs = spell ? Math.max(...spell.map((f) => f.frame.exposure.endMs)) : -Infinity;
    if (spell && frame.frame.exposure.startMs - endMs <= gapMs) spell.push(frame);
    else spells.push([frame]);
  }
  return spells;
}

function perTrain(frames: readonly GuidedFrame[]): string {
  return listed(
    [...groupBy(frames, (f) => f.frame.train)].map(([train, own]) => `${counted(own.length, 'frame')} of ${train}`),
  );
}
