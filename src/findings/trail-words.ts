/** What the trails of a train's stars tell, in words. */
import {
  counted,
  duration,
  groupBy,
  intersect,
  median,
  quantile,
  sensorScaleArcsec,
  type NightFacts,
} from '../model/index.js';
import { apartDeg, directionOf, trailsOf, type Trail, type TrailClass, type TrailGrowth } from './trails.js';

/** Trails within this of the median, either way, come from something that lasts. Common practice, no source. */
const STEADY = 0.2;
/** Trails on one side of the meridian that are longer by this than on the other differ. Common practice, no source. */
const SIDES_DIFFER = 1.25;
/** How long stars were, by length of the exposure. */
export function lengthWords(train: string, classes: readonly TrailClass[], night: NightFacts): string[] {
  const own = night.gathered.trains.find(({ id }) => id === train);
  const scale = own && sensorScaleArcsec(own);
  return classes.map(({ seconds, trails, lengthPx }) => {
    const ratio = median(trails.map(({ elongation }) => elongation));
    const onSky = scale === undefined ? '' : ` (${(lengthPx * scale).toFixed(1)}″)`;
    return (
      `${duration(seconds * 1000)}: axis ratio ${ratio.toFixed(2)} in the median of ` +
      `${counted(trails.length, 'frame')}, as of a trail of ${lengthPx.toFixed(1)} px${onSky}`
    );
  });
}

/** What the trails follow. */
export function causeWords(
  byLength: TrailGrowth | 'stays' | null,
  growth: TrailGrowth | 'stays' | null,
  classes: readonly TrailClass[],
  night: NightFacts,
): string[] {
  const perMinute = growth === null || growth === 'stays' ? '' : `${(60 * growth.pxPerSecond).toFixed(2)} px a minute`;
  const isGuided = night.gathered.guiding !== null;
  return [
    ...(byLength === 'stays'
      ? ['the trail is as long in short subs as in long ones: it does not grow while the shutter is open']
      : byLength !== null
        ? [`the trail grows with the exposure, by ${perMinute}: the field moves while the shutter is open`]
        : growth !== null
          ? [`the field moved on the same way from frame to frame, by ${perMinute}: that draws these trails`]
          : [
              classes.length < 2
                ? 'all subs were of one length: whether the trail grows with the exposure is not known'
                : 'whether the trail grows with the exposure cannot be told from these lengths',
            ]),
    isGuided
      ? 'the guiding samples show nothing in these frames that would draw such a trail'
      : 'there are no guiding samples: what the mount did meanwhile is not known',
  ];
}

/** Whether the trails are alike from frame to frame, in length and direction. */
export function steadinessWords({ trails, seconds }: TrailClass): string[] {
  const trailed = trails.filter(({ isTrailed }) => isTrailed);
  const [low, mid, high] = [0.1, 0.5, 0.9].map((share) =>
    quantile(
      trails.map(({ lengthPx }) => lengthPx),
      share,
    ),
  );
  if (low === undefined || mid === undefined || high === undefined) return [];
  const usual = directionOf(trailed);
  const spread = quantile(
    trailed.map(({ direction }) => apartDeg(direction, usual)),
    0.9,
  );
  const isSteady = low >= (1 - STEADY) * mid && high <= (1 + STEADY) * mid;
  return [
    (spread <= 20
      ? `in one direction all night, ${usual.toFixed(0)}° from the rows of the sensor, `
      : `in directions up to ${spread.toFixed(0)}° apart, `) +
      (isSteady
        ? 'and about as long from frame to frame: nothing that comes and goes, as gusts do'
        : `from ${low.toFixed(1)} to ${high.toFixed(1)} px long in frames of ${seconds} s`),
  ];
}

/** Whether the trails differ by side of the pier, as headers state it. */
export function sideWords({ trails }: TrailClass): string[] {
  const sides = [...groupBy(trails, ({ frame }) => frame.header?.pierSide?.trim().toLowerCase())]
    .flatMap(([side, own]) =>
      side && own.length >= 3 ? [{ side, px: median(own.map(({ lengthPx }) => lengthPx)) }] : [],
    )
    .sort((a, b) => b.px - a.px);
  const [long, short] = sides;
  if (!long || !short || long.px < SIDES_DIFFER * short.px) return [];
  return [
    `${long.px.toFixed(1)} px on the side of the pier that headers call ${long.side}, ` +
      `${short.px.toFixed(1)} px on the other: look at what hangs or pulls differently there`,
  ];
}

/** What another train shows of the same minutes. */
export function witnessWords(trailed: readonly Trail[], train: string, night: NightFacts): string[] {
  return night.gathered.trains.flatMap(({ id }) => {
    if (id === train) return [];
    const theirs = trailsOf(id, night);
    const seen = trailed.flatMap(({ frame }) => {
      const meanwhile = theirs.filter((other) => intersect(other.frame.exposure, frame.exposure) !== null);
      return meanwhile.length === 0 ? [] : [meanwhile.some(({ isTrailed }) => isTrailed)];
    });
    if (seen.length < trailed.length / 2 || seen.length === 0) return [];
    const also = seen.filter(Boolean).length;
    return [
      also === 0
        ? `${id}’s stars were round meanwhile: the reason is ${train}’s own, not the mount’s`
        : `${id}’s stars were long as well in ${also} of ${seen.length} of them` +
          (also >= 0.8 * seen.length ? ': what they share is the mount' : ''),
    ];
  });
}
