/**
 * A short night with stars in its pixels: corners of both sensors, small enough to be committed. What was drawn stands in
 * expected.json.
 */
import { brightnessOf, lightOf, type DrawnShape, type DrawnStar } from '../drawing/draw-stars.js';
import { seeded } from './random.js';
import type { PaintedFrame, Scenario } from './scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from './scenarios.js';
import { DRIFT_DIRECTION_DEG, driftAt } from './guiding-trace.js';
import type { SimulatedFrame, Simulation } from './simulation.js';

const WIDTH = 360;
const HEIGHT = 270;
const PEDESTAL_ADU = 100;
const ELECTRONS_PER_ADU = 1.6;
const READ_NOISE_ELECTRONS = 3;
const ARCSEC_PER_GUIDE_PIXEL = 1.1;
/** Instants of an exposure at which the field's place is taken. */
const INSTANTS = 120;
/** How fast the companion's field moves against the pilot's, arcsec/h. */
const FLEXURE_ARCSEC_H = 3.2;

/** How a train sees the field. */
interface Optics {
  readonly arcsecPerPx: number;
  readonly rotationDeg: number;
  /** Of the frame's centre from the field's, arcsec. */
  readonly centre: { readonly x: number; readonly y: number };
  /** Light against the pilot's. */
  readonly gathers: number;
}

const OPTICS: Readonly<Record<string, Optics>> = {
  heron: { arcsecPerPx: 1.616, rotationDeg: 0, centre: { x: 0, y: 0 }, gathers: 1 },
  wren: { arcsecPerPx: 1.293, rotationDeg: 2.4, centre: { x: 18, y: -11 }, gathers: 2.6 },
};

/** Seeing by hours from the beginning, arcsec, and what the companion's focus adds until it is focused anew. */
const seeing = (hours: number): number => 3.5 + 0.35 * Math.sin(4 * hours);
const WREN_FOCUS_AFTER = 13;
const REFOCUSED_BLUR = [0.25, 0.3, 0.5, 0.9, 1.4, 2.1, 2.8];

/** A cloud that nobody logged: its middle, width and depth. */
const CLOUD = { atMs: Date.parse('2026-10-17T20:41:00.000Z'), widthMs: 210_000, depth: 0.82 };

/** The night. */
export const STAR_NIGHT: Scenario = {
  name: 'star-night',
  seed: 20261017,
  begin: '2026-10-17T19:20:00.000Z',
  end: '2026-10-17T20:56:00.000Z',
  site: CIERZO_HILL,
  trains: [
    {
      ...HERON,
      plan: [{ target: 'NGC 281', filter: 'L', seconds: 300, count: 40 }],
      refocusAfter: [7],
    },
    {
      ...WREN,
      plan: [{ target: 'NGC 281', filter: 'L', seconds: 240, count: 60 }],
      refocusAfter: [WREN_FOCUS_AFTER],
      patienceMs: 60_000,
    },
  ],
  targets: [TARGETS.ngc281],
  goals: '{ L: 6h }',
  ditherEvery: 3,
  starLost: [{ at: '2026-10-17T19:33:10.000Z', seconds: 21 }],
  clouds: [],
  strayDithers: [{ at: '2026-10-17T20:26:30.000Z', pixels: 5 }],
  guidingEverySeconds: 4,
  guidingSigmaArcsec: 0.5,
  darkSky: 20.6,
  camera: { readNoise: READ_NOISE_ELECTRONS, gain: ELECTRONS_PER_ADU, darkCurrent: 0.002 },
  painter,
  cards: () => [
    ['EGAIN', ELECTRONS_PER_ADU, 'e-/ADU'],
    ['PEDESTAL', PEDESTAL_ADU, 'ADU'],
  ],
};

/** Stars of the field, arcsec from its centre and ADU through the pilot. */
function field(): DrawnStar[] {
  const random = seeded(281);
  const stars: DrawnStar[] = [];
  while (stars.length < 130) {
    const star = {
      x: (random.next() - 0.5) * 680,
      y: (random.next() - 0.5) * 540,
      flux: 900 * 10 ** (2.1 * random.next() ** 2),
    };
    if (stars.every((other) => Math.hypot(other.x - star.x, other.y - star.y) > 24)) stars.push(star);
  }
  return stars;
}

function painter(simulation: Simulation): (frame: SimulatedFrame) => PaintedFrame {
  const stars = field();
  const steps = ditherSteps(simulation);
  const beginMs = Date.parse(STAR_NIGHT.begin);
  return (frame) => {
    const optics = OPTICS[frame.train]!;
    const hours = (frame.beginMs - beginMs) / 3_600_000;
    const through = lightThrough(frame);
    const fwhm = widthArcsec(frame, hours) / optics.arcsecPerPx;
    const path = pathOf(frame, simulation, optics);
    const shape: DrawnShape = { profile: { kind: 'moffat', fwhm, beta: 3.5 }, elongation: 1.04, direction: 70, path };
    const flexure = frame.train === 'wren' ? FLEXURE_ARCSEC_H * hours : 0;
    const aim = steps.filter(({ atMs }) => atMs < frame.beginMs).at(-1) ?? { x: 0, y: 0 };
    const places = stars.map((star): DrawnStar => {
      const place = onSensor(star, { x: aim.x + flexure, y: aim.y }, optics);
      return { ...place, flux: star.flux * through * optics.gathers * ((frame.endMs - frame.beginMs) / 300_000) };
    });
    const sky = (170 + 90 * (1 - through) + 12 * hours) * (optics.gathers > 1 ? 0.9 : 1);
    const light = (): Float64Array =>
      lightOf({
        width: WIDTH,
        height: HEIGHT,
        stars: places,
        shape,
        background: 0,
        electronsPerAdu: ELECTRONS_PER_ADU,
        readNoise: READ_NOISE_ELECTRONS,
        seed: 0,
        pixel: 'point',
      });
    const nebula = nebulaOn(onSensor({ x: 30, y: 20 }, { x: aim.x + flexure, y: aim.y }, optics), optics, through);
    return {
      width: WIDTH,
      height: HEIGHT,
      pixels: () => exposed(light(), sky, nebula, seeded(frame.beginMs % 0x7fffffff)),
      truth: { fwhm, trail: trailOf(path), flux: through, sky },
    };
  };
}

/** Where the mount points after each dither, arcsec from the field's centre. */
function ditherSteps({ cycles, strays }: Simulation): { atMs: number; x: number; y: number }[] {
  const random = seeded(17);
  const moves = [
    ...cycles.map(({ beginMs }) => ({ atMs: beginMs, x: random.normal(0, 5), y: random.normal(0, 5) })),
    // A stray one goes from where the mount is.
    ...strays.map(({ fromMs, pixels }) => ({ atMs: fromMs, jump: pixels * ARCSEC_PER_GUIDE_PIXEL })),
  ].sort((a, b) => a.atMs - b.atMs);
  let at = { x: 0, y: 0 };
  return moves.map((move) => {
    at = 'jump' in move ? { x: at.x + move.jump, y: at.y } : { x: move.x, y: move.y };
    return { atMs: move.atMs, ...at };
  });
}

function onSensor(
  star: { readonly x: number; readonly y: number },
  aim: { readonly x: number; readonly y: number },
  { arcsecPerPx, rotationDeg, centre }: Optics,
): { x: number; y: number } {
  const angle = (rotationDeg * Math.PI) / 180;
  const x = star.x - aim.x - centre.x;
  const y = star.y - aim.y - centre.y;
  return {
    x: WIDTH / 2 + (x * Math.cos(angle) - y * Math.sin(angle)) / arcsecPerPx,
    y: HEIGHT / 2 + (x * Math.sin(angle) + y * Math.cos(angle)) / arcsecPerPx,
  };
}

function widthArcsec(frame: SimulatedFrame, hours: number): number {
  if (frame.train !== 'wren') return seeing(hours);
  const left = WREN_FOCUS_AFTER - frame.number;
  const blur = left >= 0 && left < REFOCUSED_BLUR.length ? (REFOCUSED_BLUR.at(-1 - left) ?? 0) : 0.25;
  return Math.hypot(seeing(hours), 1.7 * blur);
}

/** Share of the light that the cloud lets through, over the exposure. */
function lightThrough({ beginMs, endMs }: SimulatedFrame): number {
  let sum = 0;
  for (let part = 0; part < 24; part++) {
    const atMs = beginMs + ((part + 0.5) / 24) * (endMs - beginMs);
    sum += 1 - CLOUD.depth * Math.exp(-(((atMs - CLOUD.atMs) / CLOUD.widthMs) ** 2));
  }
  return sum / 24;
}

/** What the stars draw during an exposure, px from where they stood at its beginning. */
function pathOf(
  frame: SimulatedFrame,
  { guidingOff, strays }: Simulation,
  { arcsecPerPx, rotationDeg }: Optics,
): NonNullable<DrawnShape['path']> {
  const openMs = frame.endMs - frame.beginMs;
  const overlap = (span: { fromMs: number; toMs: number }): number =>
    Math.max(0, Math.min(frame.endMs, span.toMs) - Math.max(frame.beginMs, span.fromMs));
  const stray = strays.find((one) => overlap(one) > 0);
  if (stray) {
    const before = Math.min(1, Math.max(0, (stray.fromMs - frame.beginMs) / openMs));
    const jump = (stray.pixels * ARCSEC_PER_GUIDE_PIXEL) / arcsecPerPx;
    return [
      { x: 0, y: 0, share: before },
      { ...turned(-jump, 0, rotationDeg), share: 1 - before },
    ];
  }
  const angle = (DRIFT_DIRECTION_DEG * Math.PI) / 180;
  const places = Array.from({ length: INSTANTS }, (_, i) =>
    driftAt(frame.beginMs + ((i + 0.5) / INSTANTS) * openMs, guidingOff),
  );
  const still = places.filter((arcsec) => arcsec === 0).length;
  return [
    ...(still > 0 ? [{ x: 0, y: 0, share: still / INSTANTS }] : []),
    ...places.flatMap((arcsec) => {
      const along = arcsec / arcsecPerPx;
      const place = turned(along * Math.cos(angle), along * Math.sin(angle), rotationDeg);
      return arcsec === 0 ? [] : [{ ...place, share: 1 / INSTANTS }];
    }),
  ];
}

/** Length of the uniform trail with as large a second moment as the way, px. */
function trailOf(path: NonNullable<DrawnShape['path']>): number {
  const middle = (of: 'x' | 'y'): number => path.reduce((sum, place) => sum + place.share * place[of], 0);
  const [x, y] = [middle('x'), middle('y')];
  return Math.sqrt(12 * path.reduce((sum, place) => sum + place.share * ((place.x - x) ** 2 + (place.y - y) ** 2), 0));
}

function turned(x: number, y: number, deg: number): { x: number; y: number } {
  const angle = (deg * Math.PI) / 180;
  return { x: x * Math.cos(angle) - y * Math.sin(angle), y: x * Math.sin(angle) + y * Math.cos(angle) };
}

/** A glow with a dark lane, ADU. */
function nebulaOn(
  at: { readonly x: number; readonly y: number },
  { arcsecPerPx, gathers }: Optics,
  through: number,
): (x: number, y: number) => number {
  const glow = brightnessOf({ profile: { kind: 'gaussian', fwhm: 260 / arcsecPerPx } });
  const lane = brightnessOf({ profile: { kind: 'gaussian', fwhm: 70 / arcsecPerPx }, elongation: 3, direction: 35 });
  const peak = glow(0, 0);
  const depth = lane(0, 0);
  return (x, y) => {
    const dx = x - at.x;
    const dy = y - at.y;
    return 26 * gathers ** 0.5 * through * (glow(dx, dy) / peak) * (1 - 0.7 * (lane(dx - 20, dy + 14) / depth));
  };
}

function exposed(
  light: Float64Array,
  sky: number,
  nebula: (x: number, y: number) => number,
  random: { normal(mean: number, sigma: number): number },
): Float64Array {
  return light.map((star, at) => {
    const electrons = (star + sky + nebula(at % WIDTH, Math.floor(at / WIDTH))) * ELECTRONS_PER_ADU;
    const noisy = random.normal(electrons, Math.sqrt(electrons + READ_NOISE_ELECTRONS ** 2));
    return Math.min(65_535, Math.max(0, Math.round(noisy / ELECTRONS_PER_ADU + PEDESTAL_ADU)));
  });
}
