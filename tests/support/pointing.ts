/**
 * Where two trains looked, written by hand: plain figures for tests of pages and findings. Everything is invented.
 */
import type {
  DitherSpread,
  DriftStretch,
  FieldRotation,
  Flexure,
  Night,
  PairPointing,
  TrainPointing,
} from '../../src/model/index.js';
import { pairGeometry } from '../../src/stars/pair/index.js';

const SIZE = { width: 6248, height: 4176 };
const HERON_SCALE = 1.6157;
const WREN_SCALE = 1.2926;
const BEGIN_MS = Date.UTC(2026, 9, 14, 19);
const HOUR_MS = 3_600_000;

/** A rate on one side of the pier, px an hour of a train. */
export function stretchOf(pxPerHour: number, scaleArcsec: number, more: Partial<DriftStretch> = {}): DriftStretch {
  return {
    xPxPerHour: pxPerHour,
    yPxPerHour: 0,
    pxPerHour,
    uncertaintyPxPerHour: 0.05,
    arcsecPerHour: pxPerHour * scaleArcsec,
    uncertaintyArcsecPerHour: 0.05 * scaleArcsec,
    frames: 40,
    flipped: false,
    startMs: BEGIN_MS,
    endMs: BEGIN_MS + 4 * HOUR_MS,
    ...more,
  };
}

/** Dithers at the given places, half an hour apart, three frames each. */
export function spreadOf(
  places: readonly (readonly [number, number])[],
  more: Partial<DitherSpread> = {},
): DitherSpread {
  const apart = (i: number, k: number) =>
    Math.hypot((places[i]?.[0] ?? 0) - (places[k]?.[0] ?? 0), (places[i]?.[1] ?? 0) - (places[k]?.[1] ?? 0));
  return {
    places: places.map(([x, y], i) => ({ x, y, startMs: BEGIN_MS + i * (HOUR_MS / 2), frames: 3, flipped: false })),
    steps: places.slice(1).map(([x, y], i) => {
      const [fromX, fromY] = places[i] ?? [0, 0];
      const atMs = BEGIN_MS + (i + 1) * (HOUR_MS / 2) - 5000;
      return { x: x - fromX, y: y - fromY, gotPx: apart(i, i + 1), askedPx: 5, atMs };
    }),
    scatterPx: { x: 4, y: 4 },
    nearestPx: places.map((_, i) => Math.min(...places.flatMap((__, k) => (k === i ? [] : [apart(i, k)])))),
    repeats: places.flatMap((_, first) =>
      places.flatMap((__, second) =>
        second > first && apart(first, second) <= 1 ? [{ first, second, apartPx: apart(first, second) }] : [],
      ),
    ),
    oneWay: { netPx: 6, pathPx: 60, trendPx: 2, aroundPx: 4, trendDeg: 30, nextStepCosine: -0.5, isWalking: false },
    settling: { dithers: 8, firstAwayPx: 0.12, othersAwayPx: 0.1, fwhmRatio: 1.01, elongationRatio: 1.0 },
    ...more,
  };
}

export const EVEN_PLACES: readonly (readonly [number, number])[] = [
  [0, 0],
  [6, 1],
  [-4, 5],
  [2, -7],
  [-8, -2],
  [7, 7],
  [-1, 9],
  [9, -5],
  [-6, -8],
];

export function rotationOf(degPerHour: number, more: Partial<FieldRotation> = {}): FieldRotation {
  return {
    degPerHour,
    uncertaintyDegPerHour: 0.0002,
    frames: 40,
    cornerTrailPx: (Math.abs(degPerHour) * (Math.PI / 180) * 3757 * 300) / 3600,
    subSeconds: 300,
    polarErrorAtLeastArcmin: 125.8 * Math.abs(degPerHour),
    uncertaintyArcmin: 0.03,
    ...more,
  };
}

/** One train on NGC 281. */
export function pointingOf(train: string, more: Partial<TrainPointing> = {}): TrainPointing {
  const scaleArcsec = train === 'heron' ? HERON_SCALE : WREN_SCALE;
  const own = train === 'heron' ? 0.02 : 2.1;
  return {
    train,
    target: 'NGC 281',
    size: SIZE,
    scaleArcsec,
    reference: `${train}-Ha-0`,
    stars: Array.from({ length: 30 }, (_, i) => ({
      x: 300 + ((i * 1907) % 5600),
      y: 200 + ((i * 1259) % 3700),
      light: 1 / (i + 1),
    })),
    targetOffArcsec: 40,
    registered: 40,
    elsewhere: 0,
    unregistered: [],
    drift: {
      by: 'between-dithers',
      sides: [stretchOf(own, scaleArcsec)],
      hours: [0, 1].map((hour) =>
        stretchOf(own, scaleArcsec, {
          frames: 12,
          startMs: BEGIN_MS + hour * HOUR_MS,
          endMs: BEGIN_MS + (hour + 1) * HOUR_MS,
        }),
      ),
    },
    rotation: rotationOf(0.0004),
    dithers: spreadOf(EVEN_PLACES),
    dithersBy: 'log',
    turns: [],
    ...more,
  };
}

/** Flexure at a rate, px of the companion an hour. */
export function flexureAt(pxPerHour: number, more: Partial<Flexure> = {}): Flexure {
  const side = stretchOf(pxPerHour, WREN_SCALE);
  const longest = pxPerHour > 0 ? (3600 * 0.5) / pxPerHour : null;
  const { flipped: _flipped, startMs: _startMs, endMs: _endMs, ...overall } = side;
  return {
    overall,
    sides: [side],
    hours: [],
    trailPx: (pxPerHour * 240) / 3600,
    subSeconds: 240,
    longestSubSeconds: longest,
    longestSubWorstHourSeconds: longest,
    isMeasured: true,
    course: Array.from({ length: 40 }, (_, i) => ({
      midMs: BEGIN_MS + i * 0.1 * HOUR_MS,
      flipped: i >= 30,
      x: pxPerHour * i * 0.1,
      y: 0.05 * (i % 3),
    })),
    ...more,
  };
}

/** The pair by how its cameras lie: turned by degrees, the companion's centre aside by arcsec. */
export function pairOf(
  { turnDeg = 2.4, asideArcsec = 90, pxPerHour = 2.1 }: { turnDeg?: number; asideArcsec?: number; pxPerHour?: number },
  more: Partial<PairPointing> = {},
): PairPointing {
  const scale = HERON_SCALE / WREN_SCALE;
  const angle = (turnDeg * Math.PI) / 180;
  // The pilot's place that falls on the companion's middle.
  const x = (SIZE.width + 1) / 2 + asideArcsec / HERON_SCALE;
  const y = (SIZE.height + 1) / 2;
  const similarity = {
    x: (SIZE.width + 1) / 2 - scale * (x * Math.cos(angle) - y * Math.sin(angle)),
    y: (SIZE.height + 1) / 2 - scale * (x * Math.sin(angle) + y * Math.cos(angle)),
    rotation: turnDeg,
    scale,
    mirrored: false,
  };
  const geometry = pairGeometry(similarity, { size: SIZE, scaleArcsec: HERON_SCALE }, { size: SIZE });
  const flexure = flexureAt(pxPerHour);
  return {
    target: 'NGC 281',
    trains: ['heron', 'wren'],
    scaleRatio: geometry.scaleRatio,
    rotation: geometry.rotationDeg,
    offsetArcsec: geometry.offsetArcsec,
    overlap: { heron: geometry.overlapPercent.a / 100, wren: geometry.overlapPercent.b / 100 },
    flexureArcsecPerHour: flexure.overall.arcsecPerHour,
    matched: 140,
    geometry,
    flexure,
    ...more,
  };
}

/** A night with the given pointing. */
export function pointed(
  night: Night,
  {
    pointings = [pointingOf('heron'), pointingOf('wren')],
    pairs = [pairOf({})],
  }: { readonly pointings?: readonly TrainPointing[]; readonly pairs?: readonly PairPointing[] } = {},
): Night {
  return { ...night, stars: { frames: night.stars?.frames ?? {}, pointings, pairs, warnings: [] } };
}
