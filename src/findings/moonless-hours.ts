/** Hours of the same night in which the Moon was down, the target was high enough and the train took nothing. */
import {
  coveredMs,
  darknessFor,
  durationMs,
  intersect,
  interval,
  lightsOf,
  midpointMs,
  ownValue,
  subtract,
  sum,
  union,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import { clock } from './wording.js';

/** A Moon that brightens the sky by less is as good as down, magnitudes. */
const DOWN_MAG = 0.02;
/** Shorter intervals are pauses between subs, ms. */
const SHORTEST_MS = 900_000;

export interface MoonlessHours {
  /** `after moonset, from 02:10`, `before moonrise, until 22:40`. */
  readonly when: string;
  readonly freeMs: number;
  /** Moonlight that the frames would have been spared, as far as the hours suffice. */
  readonly winMs: number;
}

/** The fraction of a frame's exposure lost to moonlight by the model; 0 if not modelled. */
export function moonLoss({ id }: JudgedFrame, { worth }: NightFacts): number {
  const own = ownValue(worth?.frames, id);
  return own && own.moonlessShare > 0 ? Math.max(0, 1 - own.share / own.moonlessShare) : 0;
}

/**
 * Where frames of one train and target would have fitted without the Moon on the same night.
 *
 * @returns `null` if there was no such time, or it saves too little
 */
export function moonlessHours(
  frames: readonly JudgedFrame[],
  night: NightFacts,
  leastMs: number,
): MoonlessHours | null {
  const [first] = frames;
  const last = frames.at(-1);
  if (!first || !last) return null;
  const atMs = midpointMs(interval(first.exposure.startMs, Math.max(first.exposure.startMs, last.exposure.endMs)));
  const free = freeHours(first, night);
  const after = free.filter((s) => s.startMs >= atMs);
  const before = free.filter((s) => s.endMs <= atMs);
  const [begins] = after;
  const ends = before.at(-1);
  const side = (when: string, own: readonly Interval[]): MoonlessHours => {
    const freeMs = coveredMs(own);
    return { when, freeMs, winMs: Math.round(spared(frames, freeMs, night)) };
  };
  const sides = [
    ...(begins ? [side(`after moonset, from ${clock(begins.startMs, night)}`, after)] : []),
    ...(ends ? [side(`before moonrise, until ${clock(ends.endMs, night)}`, before)] : []),
  ];
  const [best] = sides.sort((a, b) => b.winMs - a.winMs);
  return best && best.winMs >= leastMs ? best : null;
}

/** The frames that lost most, as many as fit. */
function spared(frames: readonly JudgedFrame[], freeMs: number, night: NightFacts): number {
  let leftMs = freeMs;
  const lost = frames.map((f) => ({ ms: durationMs(f.exposure), loss: moonLoss(f, night) }));
  return sum(
    lost
      .sort((a, b) => b.loss - a.loss)
      .map(({ ms, loss }) => {
        const roomMs = Math.min(ms, leftMs);
        leftMs -= roomMs;
        return loss * roomMs;
      }),
  );
}

function freeHours(frame: JudgedFrame, night: NightFacts): Interval[] {
  const { train } = frame;
  const held = night.timeline.activities.filter(
    (a) => a.kind === 'hold' && (a.train === undefined || a.train === train),
  );
  return subtract(moonlessDarkness(frame, night), [
    ...lightsOf(night, train).map((f) => f.exposure),
    ...held.map((a) => a.span),
  ]).filter((s) => durationMs(s) >= SHORTEST_MS);
}

/** When it was dark enough for a frame's filter, the Moon was down and its target above its limit. */
export function moonlessDarkness({ train, target, filter }: JudgedFrame, night: NightFacts): Interval[] {
  const points = night.worth?.moonlight.find((m) => m.target === target)?.points ?? [];
  const up = night.sky.curves.find((c) => c.target === target)?.up ?? [];
  const dark = darknessFor({ train, filter }, night);
  if (dark === null) return [];
  const down = points.slice(1).flatMap((point, i) => {
    const before = points[i];
    return before && before.brighteningMag < DOWN_MAG && point.brighteningMag < DOWN_MAG
      ? [interval(before.atMs, point.atMs)]
      : [];
  });
  const moonless = down.flatMap((span) =>
    up.flatMap((u) => {
      const common = intersect(span, u);
      const within = common && intersect(common, dark);
      return within ? [within] : [];
    }),
  );
  return union(moonless).filter((s) => durationMs(s) >= SHORTEST_MS);
}
