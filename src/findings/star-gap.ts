/**
 * The guide star was lost during subs.
 */
import { counted, duration, durationMs, times, type Activity } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { exposedMs, exposures } from './trains.js';
import { clock, firstOf, frameLinks } from './wording.js';

export const starGap: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'star-gap',
  title: 'Guide star lost',
  needs: ['guiding-events', 'lights'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    const lost = night.timeline.activities.filter((a) => a.kind === 'star-gap');
    const harmed = night.accounts.lights.filter((f) =>
      f.causes.some((c) => (c.kind === 'guiding-off' || c.kind === 'trailed') && lost.some((a) => isSame(a, c.span))),
    );
    if (harmed.length < minimumFrames) return [];
    const doubtful = harmed.filter((f) => f.verdict === 'doubtful').length;
    const snr = snrBefore(lost[0], night.gathered.guiding);
    return [
      {
        title: `Guide star lost ${times(lost.length)}, during ${counted(harmed.length, 'sub')}`,
        costMs: exposedMs(harmed),
        frames: harmed.length,
        evidence: [
          ...firstOf(
            lost.map(
              (a) =>
                `${clock(a.span.startMs, night)}: for ${duration(durationMs(a.span))}${a.why ? ` (${a.why})` : ''}`,
            ),
          ),
          ...(doubtful > 0
            ? [
                `${doubtful} of the frames ${doubtful === 1 ? 'is' : 'are'} only doubtful: look at ` +
                  `${doubtful === 1 ? 'it' : 'them'} before throwing ${doubtful === 1 ? 'it' : 'them'} away`,
              ]
            : []),
          ...(snr === null ? [] : [`signal to noise of the star just before: ${snr.toFixed(0)}`]),
        ],
        advice:
          'Guide on several stars or a brighter one, or with slightly longer exposures; check for cloud, dew or a ' +
          'knocked focus at that time.',
        confidence: 'medium',
        links: [{ text: 'Guiding', anchor: 'guiding' }, ...frameLinks(harmed, night, 6)],
        minutes: exposures(harmed),
      },
    ];
  },
};

function isSame({ span }: Activity, other: Activity['span']): boolean {
  return span.startMs === other.startMs && span.endMs === other.endMs;
}

/** The last known signal-to-noise ratio before the first loss. */
function snrBefore(
  first: Activity | undefined,
  guiding: { readonly atMs: Float64Array; readonly snr: Float64Array } | null,
): number | null {
  if (!first || !guiding) return null;
  const before = guiding.atMs.findLastIndex((t) => t < first.span.startMs);
  const snr = guiding.snr[before];
  return snr === undefined || Number.isNaN(snr) ? null : snr;
}
