/**
 * What a frame is worth by what was drawn into it, with the limits of the design (docs/verdicts.md). Shares no code with
 * the judging. Around each limit lies a grey zone: a frame in it counts for neither side.
 */
import { median, mean } from '../../../src/model/statistics.js';
import { brightnessOf, type DrawnShape } from '../drawing/draw-stars.js';
import type { DrawnLight } from './drawn-night.js';

/**
 * `tail`: most of the light makes a round star, and a faint tail or ghost lies beside it: second moments and half
 * maximum disagree, and no limit of the design speaks of it.
 */
export type Truth = 'kept' | 'doubtful' | 'lost' | 'grey' | 'tail';

/** How far a figure lies beyond the limits: 0 none, 1 doubtful, 2 lost; a half between two. */
type Grade = 0 | 0.5 | 1 | 1.5 | 2;

export interface Figures {
  readonly light: DrawnLight;
  /** a/b of the light by its second moments, and of the area above half the maximum. */
  readonly byMoments: number;
  readonly byHalf: number;
  /** a/b that the mount's movement alone makes of a round star. */
  readonly byMount: number;
  /** FWHM as recorded, px; across a trail. */
  readonly width: number;
  /** Of the long axis, degrees. */
  readonly direction: number;
}

/** Added variance of a pixel, as FWHM² of a Gaussian. */
const PIXEL_FWHM2 = (8 * Math.LN2) / 12;

/** The truth of every light of a night. */
export function truthsOf(lights: readonly DrawnLight[]): Truth[] {
  const figures = lights.map((light) => figuresOf(light));
  return figures.map((own) => {
    const group = figures.filter(({ light: { frame } }) => isAlike(frame, own.light.frame));
    return truthOf(
      own,
      group.length >= 6 ? group : figures.filter((f) => f.light.frame.train === own.light.frame.train),
    );
  });
}

const isAlike = (a: DrawnLight['frame'], b: DrawnLight['frame']): boolean =>
  a.train === b.train && a.filter === b.filter && a.target === b.target;

function truthOf(own: Figures, group: readonly Figures[]): Truth {
  const usualShape = median(group.map(({ byMoments }) => byMoments));
  const usualWidth = median(group.map(({ width }) => width));
  const best = group.map(({ light }) => light.transmission).sort((a, b) => b - a);
  const clear = mean(best.slice(0, Math.max(1, Math.round(best.length / 3))));
  const width = gradeOf(own.width / usualWidth, 1.3, 1.8, 0.05);
  const dimmed = gradeOf(clear / own.light.transmission, 1 / 0.7, 1 / 0.3, 0.08);
  const drawn = drawnGrade(own, usualShape);
  if (drawn === 'tail') return width === 2 || dimmed === 2 ? 'lost' : 'tail';
  const worst = Math.max(width, dimmed, drawn);
  return worst === 0 ? 'kept' : worst === 1 ? 'doubtful' : worst === 2 ? 'lost' : 'grey';
}

/**
 * Jumps by 1 − b/a of the second moments that they draw, as half the maximum does not show them; what else draws the stars
 * out by their axis ratio.
 */
function drawnGrade(own: Figures, usual: number): Grade | 'tail' {
  const drift = driftGrade(own, usual);
  const { jumpShare } = own.light;
  // So short a jump adds nothing to what else drew the stars out.
  if (jumpShare < 0.008) return drift;
  const jump = jumpShare < 0.015 ? 0.5 : gradeOf(1 - 1 / own.byMount, 0.05, 0.2, 0.3);
  return drift === 'tail' ? jump : (Math.max(jump, drift) as Grade);
}

function driftGrade({ light, byMoments, byHalf }: Figures, usual: number): Grade | 'tail' {
  const limits = [Math.max(1.25, 1.2 * usual), Math.max(1.6, 1.4 * usual), 0.06] as const;
  const half = gradeOf(byHalf, ...limits);
  if (light.jumpShare > 0) return half;
  const moments = gradeOf(byMoments, ...limits);
  if (moments === 0 && half <= 0.5) return 0;
  // A uniform trail is longer at half maximum than by its moments; a tail of little light is the other way about.
  if (half < moments && half < 2) return moments - half >= 1 ? 'tail' : 1.5;
  return moments;
}

function gradeOf(value: number, doubtful: number, lost: number, grey: number): Grade {
  if (value > lost * (1 + grey)) return 2;
  if (value > lost * (1 - grey)) return 1.5;
  if (value > doubtful * (1 + grey)) return 1;
  return value > doubtful * (1 - grey) ? 0.5 : 0;
}

/** What was drawn, as figures. */
export function figuresOf(light: DrawnLight): Figures {
  const { profile, elongation = 1, direction = 0, path } = light.shape;
  const fwhm = profile.kind === 'ring' ? 2 * profile.outer : profile.fwhm;
  const variance = (fwhm ** 2 + PIXEL_FWHM2) / (8 * Math.LN2);
  const angle = (2 * direction * Math.PI) / 180;
  const middle = (variance * (elongation + 1 / elongation)) / 2;
  const spread = (variance * (elongation - 1 / elongation)) / 2;
  const { pxx, pyy, pxy } = spreadOfPath(path);
  const mount = spreadOfPath(light.mountPath);
  const [xx, yy, xy] = [
    middle + spread * Math.cos(angle) + pxx,
    middle - spread * Math.cos(angle) + pyy,
    spread * Math.sin(angle) + pxy,
  ];
  return {
    light,
    direction: ((Math.atan2(2 * xy, xx - yy) * 90) / Math.PI + 180) % 180,
    byMoments: axisRatio(xx, yy, xy),
    byHalf: halfRatio(light.shape),
    byMount: axisRatio(variance + mount.pxx, variance + mount.pyy, mount.pxy),
    width: Math.sqrt(fwhm ** 2 + PIXEL_FWHM2),
  };
}

/** Second moments of the star's way about its middle, px². */
function spreadOfPath(path: DrawnLight['shape']['path']): { pxx: number; pyy: number; pxy: number } {
  let [mx, my] = [0, 0];
  for (const { x, y, share } of path) [mx, my] = [mx + x * share, my + y * share];
  let [pxx, pyy, pxy] = [0, 0, 0];
  for (const { x, y, share } of path) {
    pxx += share * (x - mx) ** 2;
    pyy += share * (y - my) ** 2;
    pxy += share * (x - mx) * (y - my);
  }
  return { pxx, pyy, pxy };
}

function axisRatio(xx: number, yy: number, xy: number): number {
  const middle = (xx + yy) / 2;
  const spread = Math.hypot((xx - yy) / 2, xy);
  return Math.sqrt((middle + spread) / (middle - spread));
}

/** Axis ratio of the area above half the maximum, on a grid fine enough for its width. */
function halfRatio(shape: DrawnShape): number {
  const { path = [], profile, elongation = 1 } = shape;
  if (path.length <= 1) return elongation;
  const width = profile.kind === 'ring' ? 2 * profile.outer : profile.fwhm;
  const [xs, ys] = [path.map(({ x }) => x), path.map(({ y }) => y)];
  const step = width / 8;
  const brightness = brightnessOf(shape);
  const cells: { x: number; y: number; light: number }[] = [];
  for (let y = Math.min(...ys) - width; y <= Math.max(...ys) + width; y += step)
    for (let x = Math.min(...xs) - width; x <= Math.max(...xs) + width; x += step)
      cells.push({ x, y, light: brightness(x, y) });
  const half = cells.reduce((most, { light }) => Math.max(most, light), 0) / 2;
  const above = cells.filter(({ light }) => light > half);
  const mx = mean(above.map(({ x }) => x));
  const my = mean(above.map(({ y }) => y));
  return axisRatio(
    mean(above.map(({ x }) => (x - mx) ** 2)),
    mean(above.map(({ y }) => (y - my) ** 2)),
    mean(above.map(({ x, y }) => (x - mx) * (y - my))),
  );
}
