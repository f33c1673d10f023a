/** Guiding that is rough on one axis: in declination with signs of backlash, or in right ascension. */
import { CAUTION, counted, median, partitionPoint, type GuidingSeries, type Interval, itemAt } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { arcsec, guidedFrames, type GuidedFrame } from './guided-frames.js';
import { exposedMs, exposures } from './trains.js';
import { frameLinks } from './wording.js';

type Axis = 'ra' | 'dec';
const NAMES: Readonly<Record<Axis, string>> = { ra: 'right ascension', dec: 'declination' };

/** The rougher axis of some frames, and how many times the other's errors it has; NaN without frames. */
function axisOf(frames: readonly GuidedFrame[]): { readonly axis: Axis; readonly times: number } {
  const ratio = median(frames.map((f) => f.guiding.raRmsArcsec / f.guiding.decRmsArcsec));
  return { axis: ratio >= 1 ? 'ra' : 'dec', times: Math.max(ratio, 1 / ratio) };
}

export const guidingAxis: FindingModule<{
  readonly ratio: number;
  readonly minimumPixels: number;
  readonly slowness: number;
  readonly minimumFrames: number;
}> = {
  id: 'guiding-axis',
  title: 'Guiding rough on one axis',
  needs: ['guiding-samples', 'pixel-scales', 'lights'],
  // A mount guides both axes about equally well; half as much again on one is worth a look. Common practice, no source.
  defaults: { ratio: 1.5, minimumPixels: 0.5, slowness: 2, minimumFrames: 5 },
  find(night, { ratio, minimumPixels, slowness, minimumFrames }) {
    // Momentary disturbances come from outside, on whichever axis they act.
    const all = guidedFrames(night).filter((f) => !f.inBursts);
    const steep = axisOf(all).times >= ratio;
    // A spell on one axis is few of the night's frames.
    const frames = steep ? all : all.filter((f) => f.rough);
    const {
      gathered: { guiding },
    } = night;
    if (frames.length < minimumFrames || !guiding) return [];
    const { axis, times } = axisOf(frames);
    if (!(times >= ratio) || Math.max(...frames.map((f) => f.pixels)) < minimumPixels) return [];
    const rough = frames.filter((f) => f.rough && rmsOf(f, axis) >= ratio * rmsOf(f, other(axis)));
    const harmed = rough.map((f) => f.frame);
    // Frames that are doubtful for another reason as well would not have been kept.
    const saved = rough.filter(
      (f) =>
        f.roughAlone &&
        Math.SQRT2 * rmsOf(f, other(axis)) * (f.pixels / f.guiding.totalRmsArcsec) <=
          night.gathered.rules.roughGuidingPixels,
    );
    const spans = frames.map((f) => f.frame.exposure);
    const [slow, quick] = [reversalSeconds(guiding, axis, spans), reversalSeconds(guiding, other(axis), spans)];
    const hasBacklash = axis === 'dec' && slow >= slowness * quick;
    return [
      {
        title: hasBacklash
          ? 'Guiding was rough in declination, and slow to reverse'
          : `Guiding was rough in ${NAMES[axis]} alone${steep ? '' : `, in ${counted(frames.length, 'frame')}`}`,
        costMs: exposedMs(harmed),
        frames: harmed.length,
        evidence: [
          `median RMS ${arcsec(median(frames.map((f) => rmsOf(f, axis))))} in ${NAMES[axis]} and ` +
            `${arcsec(median(frames.map((f) => rmsOf(f, other(axis)))))} in ${NAMES[other(axis)]}, ` +
            `of ${counted(frames.length, 'frame')}: ${times.toFixed(1)} times as much`,
          `the error changed sign every ${slow.toFixed(0)} s in ${NAMES[axis]}, every ${quick.toFixed(0)} s ` +
            `in ${NAMES[other(axis)]}${hasBacklash ? ': a sign of backlash' : ''}`,
          ...(saved.length > 0
            ? [
                `with ${NAMES[axis]} as steady as ${NAMES[other(axis)]}, ${counted(saved.length, 'frame')} of ` +
                  `${harmed.length} would have been within the limit`,
              ]
            : []),
        ],
        advice: hasBacklash
          ? 'Guide declination in one direction only, with a small polar misalignment to push against, or take ' +
            'the play out of its gear; balance that axis a little to one side.'
          : axis === 'dec'
            ? 'Look at the declination axis: balance, cable drag, guiding strength too high.'
            : 'Look at the right ascension axis: balance a little east-heavy, guiding strength, and the worm’s ' +
              'own period in the guiding graph.',
        ...(saved.length > 0 ? { winMs: exposedMs(saved.map((f) => f.frame)) } : {}),
        confidence: frames.length >= 20 ? 'medium' : 'low',
        links: [{ text: 'Guiding', anchor: 'guiding' }, ...frameLinks(harmed, night, 4)],
        caution: CAUTION,
        minutes: exposures(harmed),
      },
    ];
  },
};

function other(axis: Axis): Axis {
  return axis === 'ra' ? 'dec' : 'ra';
}

function rmsOf({ guiding }: GuidedFrame, axis: Axis): number {
  return axis === 'ra' ? guiding.raRmsArcsec : guiding.decRmsArcsec;
}

/** Median time between two sign changes of the error, seconds, within exposures; `NaN` if it never changes. */
function reversalSeconds(series: GuidingSeries, axis: Axis, spans: readonly Interval[]): number {
  const values = axis === 'ra' ? series.raArcsec : series.decArcsec;
  const stays: number[] = [];
  for (const span of spans) {
    let sinceMs: number | null = null;
    let side = 0;
    for (let i = partitionPoint(series.atMs, (t) => t >= span.startMs); i < series.atMs.length; i++) {
      const atMs = itemAt(series.atMs, i);
      if (atMs >= span.endMs) break;
      const now = Math.sign(itemAt(values, i));
      if (now === 0 || now === side) continue;
      if (sinceMs !== null) stays.push((atMs - sinceMs) / 1000);
      // The first interval in an exposure began before it: its length is unknown.
      if (side !== 0) sinceMs = atMs;
      side = now;
    }
  }
  return median(stays);
}
