/** A train whose stars remained larger than its partner's on the sky at the same times: focus, tilt or collimation. */
import {
  counted,
  groupBy,
  groupByAll,
  itemAt,
  listed,
  median,
  percent,
  sensorScaleArcsec,
  sum,
  times as countedTimes,
  type NightFacts,
  type Train,
  type JudgedFrame,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { sizedFrames, type SizedFrame } from './star-size.js';

import { clock, firstOf } from './wording.js';

interface Seen {
  /** Sizes with the same key are comparable: one target, one filter, one measuring method. */
  readonly key: string;
  readonly filter: string;
  readonly target: string | undefined;
  readonly train: string;
  readonly sized: readonly SizedFrame[];
  /** Median size at the zenith, arcseconds. */
  readonly arcsec: number;
  /** Arcseconds per pixel as stored. */
  readonly scale: number;
  /** Arcseconds per pixel in which sizes are given: the sensor's if the pixels were measured, else as stored. */
  readonly sizeScale: number;
  readonly apertureMm: number | undefined;
}

interface Pair {
  readonly large: Seen;
  readonly best: Seen;
  readonly times: number;
  /** The same after correction for coarser pixels and a smaller aperture. */
  readonly excess: number;
}

export const largerStars: FindingModule<{
  readonly ratio: number;
  readonly blurred: number;
  readonly minimumFrames: number;
}> = {
  id: 'larger-stars',
  title: 'Star sizes of the trains compared',
  needs: ['two-trains', 'sized-stars', 'pixel-scales'],
  // Common practice, no source.
  defaults: { ratio: 1.15, blurred: 1.3, minimumFrames: 6 },
  find(night, { ratio, blurred, minimumFrames }) {
    const seen = night.gathered.trains.flatMap((t) => seenBy(t, night));
    const pairs = [...groupBy(seen, ({ key }) => key).values()].flatMap((group): Pair[] => {
      const [best, ...others] = group
        .filter((s) => s.sized.length >= minimumFrames)
        .sort((a, b) => a.arcsec - b.arcsec);
      return best ? others.map((large) => pairOf(large, best)) : [];
    });
    const larger = pairs.filter(({ excess }) => excess >= ratio);
    return [...groupBy(larger, ({ large, best }) => JSON.stringify([large.train, best.train])).values()].flatMap(
      (own) => {
        const [first] = own;
        if (!first) return [];
        const { large, best } = first;
        const times = median(own.map((p) => p.times));
        const runs = night.timeline.activities.filter((a) => a.kind === 'focus' && a.train === large.train);
        const refocused = runs.length;
        const throughAll = pairs.filter(({ large: a, best: b }) => isOfBoth(a, first) && isOfBoth(b, first));
        const grownMs = own.flatMap((pair) => grownSince(pair, ratio, minimumFrames) ?? []);
        const isLate = grownMs.length === own.length;
        const stayed = own.every((pair) => hasStayed(pair, runs[0]?.span.endMs ?? Infinity, ratio, minimumFrames));
        return [
          {
            title:
              `${large.train}’s stars ${filterWords(own, throughAll)}were ${percent(times - 1)} larger than ` +
              `${best.train}’s`,
            costMs: 0,
            price: `stars ${percent(times - 1)} larger`,
            ...(!isLate && median(own.map((p) => p.excess)) >= blurred ? { isFirst: true as const } : {}),
            frames: sum(own.map((p) => p.large.sized.length)),
            evidence: [
              ...firstOf(own.map((pair) => describe(pair, new Set(own.map((p) => p.large.target)).size > 1))),
              `for point sources an exposure of ${large.train} is worth ${percent(times ** -2)} of one with stars as ` +
                `small as ${best.train}’s`,
              night.timeline.headersOnly
                ? 'without a log it is not known how often it refocused'
                : refocused === 0
                  ? `${large.train} did not refocus on this night`
                  : `${large.train} refocused ${countedTimes(refocused)} on this night`,
            ],
            advice: isLate
              ? `${large.train}’s stars were as small at first: find out what changed on ${large.train} by ` +
                `${clock(Math.min(...grownMs), night)}, focus, dew or a knock, before you touch tilt or collimation.`
              : adviceOf(large.train, stayed),
            confidence: 'low' as const,
            links: [{ text: 'Stars', anchor: 'stars' }],
          },
        ];
      },
    );
  },
};

/** Lower limit of measured sizes of points on coarse pixels, px; common practice, no source. */
const PIXEL_FWHM = 2;
/** The FWHM of a point through an aperture, arcseconds times millimetres: 1.03 λ ÷ D at 550 nm (Airy pattern). */
const AIRY_ARCSEC_MM = 206_265 * 1.03 * 550e-6;

/** Expected star size of a train under its partner's seeing: pixels and apertures add in quadrature, arcseconds. */
function explained(large: Seen, best: Seen): number {
  const airy = ({ apertureMm }: Seen): number => (apertureMm === undefined ? 0 : AIRY_ARCSEC_MM / apertureMm);
  const areApertures = large.apertureMm !== undefined && best.apertureMm !== undefined;
  const own = (seen: Seen): number => (PIXEL_FWHM * seen.scale) ** 2 + (areApertures ? airy(seen) ** 2 : 0);
  return Math.sqrt(best.arcsec ** 2 + Math.max(0, own(large) - own(best)));
}

function pairOf(large: Seen, best: Seen): Pair {
  return { large, best, times: large.arcsec / best.arcsec, excess: large.arcsec / explained(large, best) };
}

function adviceOf(train: string, stayed: boolean): string {
  const other = 'Coarser pixels and a smaller aperture are already allowed for.';
  return stayed
    ? `The stars of ${train} stayed larger after its refocus: look at tilt, collimation, spacing and dew. ${other}`
    : `Refocus ${train} at the start and compare again; if its stars stay larger, look at tilt, collimation and dew. ` +
        other;
}

/** From when on stars were larger that were as small as the partner's at first, ms; `null` where they were not. */
function grownSince({ large, best }: Pair, ratio: number, minimumFrames: number): number | null {
  const limit = ratio * explained(large, best);
  const isLarge = (from: number): boolean =>
    median(large.sized.slice(from, from + minimumFrames).map((s) => s.zenith)) * large.sizeScale >= limit;
  if (large.sized.length < 2 * minimumFrames || isLarge(0)) return null;
  const last = large.sized.length - minimumFrames;
  const at = Array.from({ length: last + 1 }, (_, i) => i).find(isLarge);
  // The window's middle frame is the first large one.
  const first = at === undefined ? undefined : large.sized[at + Math.floor(minimumFrames / 2)];
  return first?.frame.exposure.startMs ?? null;
}

/** Whether the frames after the first refocus are just as much larger. */
function hasStayed({ large, best }: Pair, focusedMs: number, ratio: number, minimumFrames: number): boolean {
  const after = large.sized.filter(({ frame }) => frame.exposure.startMs >= focusedMs);
  return (
    after.length >= minimumFrames &&
    median(after.map((s) => s.zenith)) * large.sizeScale >= ratio * explained(large, best)
  );
}

function isOfBoth({ train }: Seen, { large, best }: Pair): boolean {
  return train === large.train || train === best.train;
}

/** Through which filters, if through others they were not: it may be the other train whose stars are larger there. */
function filterWords(own: readonly Pair[], all: readonly Pair[]): string {
  const filters = [...new Set(own.map(({ large }) => large.filter))];
  return all.every(({ large }) => filters.includes(large.filter)) ? '' : `through ${listed(filters)} `;
}

function describe({ large, best }: Pair, areMany: boolean): string {
  const where = areMany && large.target !== undefined ? `${large.target}, ` : '';
  const by = large.sized[0]?.by === 'pixels' ? 'measured in the pixels' : 'sizes from the headers';
  return (
    `${where}${large.filter}: ${large.arcsec.toFixed(1)}″ on ${large.train} against ${best.arcsec.toFixed(1)}″ on ` +
    `${best.train} (medians of ${counted(large.sized.length, 'frame')} and ${best.sized.length}, scaled to the ` +
    `zenith by air mass, ${by})`
  );
}

/** A train's stars per filter, if its pixel scale is known. */
function seenBy(optics: Train, night: NightFacts): Seen[] {
  const { id: train, pixelScaleArcsec: scale, apertureMm } = optics;
  if (scale === undefined) return [];
  const sized = sizedFrames(night, train);
  return groupByAll(sized, ({ frame, by }) => [frame.target, frame.filter, measureOf(frame, by)]).map((own) => {
    const sizeScale = (own[0]?.by === 'pixels' ? sensorScaleArcsec(optics) : undefined) ?? scale;
    return {
      key: keyOf(itemAt(own, 0)),
      filter: own[0]?.frame.filter ?? 'no filter',
      target: own[0]?.frame.target,
      train,
      sized: own,
      arcsec: median(own.map((s) => s.zenith)) * sizeScale,
      scale,
      sizeScale,
      apertureMm,
    };
  });
}

function keyOf({ frame, by }: SizedFrame): string {
  return JSON.stringify([frame.target, frame.filter, measureOf(frame, by)]);
}

function measureOf(frame: JudgedFrame, by: SizedFrame['by']): string | undefined {
  return by === 'pixels' ? by : frame.header?.starSize?.measure;
}
