/**
 * Guiding that was calm except for moments that ruined whole frames: gusts, a snagging cable, somebody at the pier. How
 * much exposure they cost depends on its length.
 */
import {
  CAUTION,
  counted,
  durationMs,
  groupBy,
  interval,
  listed,
  median,
  percent,
  sum,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { arcsec, guidedFrames, squaresIn, usualRms, type GuidedFrame } from './guided-frames.js';
import { exposedMs, exposures } from './trains.js';
import { frameLinks } from './wording.js';

export const guidingBursts: FindingModule<{
  readonly minimumFrames: number;
  readonly shortestSeconds: number;
  readonly parts: number;
}> = {
  id: 'guiding-bursts',
  title: 'Moments of rough guiding',
  needs: ['guiding-samples', 'pixel-scales', 'lights'],
  // Common practice, no source.
  defaults: { minimumFrames: 3, shortestSeconds: 60, parts: 3 },
  find(night, { minimumFrames, shortestSeconds, parts }) {
    const hit = guidedFrames(night).filter((f) => f.inBursts && f.frame.verdict !== 'kept');
    if (hit.length < minimumFrames) return [];
    const harmed = hit.map((f) => f.frame);
    const calm = median(hit.map(({ frame }) => Math.sqrt(median(errorsOf(frame, night)))));
    const divisible = hit.filter(({ frame }) => durationMs(frame.exposure) >= parts * shortestSeconds * 1000);
    const savedMs = sum(divisible.map((f) => calmPartsMs(f, parts, night)));
    return [
      {
        title: `Moments of rough guiding cost ${counted(hit.length, 'frame')}`,
        costMs: exposedMs(harmed),
        frames: hit.length,
        evidence: [
          `median RMS ${arcsec(usualRms(hit))}, though half of the time the error was below ${arcsec(calm)}; ` +
            `errors up to ${arcsec(hit.reduce((most, f) => Math.max(most, f.guiding.peakArcsec), 0))}`,
          listed(
            [...groupBy(harmed, (f) => f.train)].map(([train, own]) => `${counted(own.length, 'frame')} of ${train}`),
          ),
          ...(savedMs > 0
            ? [
                `split into ${parts} each, ${percent(savedMs / exposedMs(divisible.map((f) => f.frame)))} of their ` +
                  'exposure would have been within the limit, by the same samples',
              ]
            : []),
        ],
        advice:
          'Shield the mount from the wind, shorten dew shields, and look for cables that catch and steps at the ' +
          'pier. ' +
          (savedMs > 0
            ? 'While it lasts, take shorter subs as far as read noise allows: each moment then spoils less.'
            : 'The subs are short enough: each moment spoils little.'),
        foldedAdvice: 'The guiding was thrown off only for moments: compare with the wind.',
        confidence: 'medium',
        links: [{ text: 'Guiding', anchor: 'guiding' }, ...frameLinks(harmed, night, 4)],
        caution: CAUTION,
        minutes: exposures(harmed),
      },
    ];
  },
};

const errorsOf = ({ exposure }: JudgedFrame, { gathered }: NightFacts): number[] =>
  squaresIn(gathered.guiding, exposure, median);

/** The exposure of those parts of a frame in which guiding was within the limit, ms. */
function calmPartsMs({ frame, guiding, pixels }: GuidedFrame, parts: number, { gathered }: NightFacts): number {
  const { startMs } = frame.exposure;
  const limitArcsec = gathered.rules.roughGuidingPixels * (guiding.totalRmsArcsec / pixels);
  // Parts end on whole milliseconds, which a third of an exposure seldom does.
  const endOf = (part: number): number => startMs + Math.round((part * durationMs(frame.exposure)) / parts);
  const all = Array.from({ length: parts }, (_, i) => interval(endOf(i), endOf(i + 1)));
  const isCalm = (part: Interval): boolean => {
    const squares = squaresIn(gathered.guiding, part);
    return squares.length > 0 && Math.sqrt(sum(squares) / squares.length) <= limitArcsec;
  };
  return sum(all.filter(isCalm).map(durationMs));
}
