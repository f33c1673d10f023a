import { itemAt } from '../../model/index.js';
import type { Interval, Night, SkyNight, SkyPosition, TargetCurve } from '../../model/index.js';
import { cssColour } from '../design/tokens.js';
import { greatest } from '../figures/greatest.js';
import { imagedSpans } from '../figures/imaged.js';
import type { TimeScale } from './scale.js';

export interface SkyBand {
  readonly x: string;
  readonly width: string;
  readonly fill: string;
}

/** Sky behind the lanes, and the strip with the altitudes of the Moon and of the target being imaged. */
export interface SkyView {
  readonly bands: readonly SkyBand[];
  /** Path in a box of 1000 × 90: the Moon's altitude as an area. Empty when it stays below the horizon. */
  readonly moonPath: string;
  /** Paths in the same box: the imaged target's altitude while it was imaged. */
  readonly targetPaths: readonly string[];
  readonly moonLabel: { readonly x: string; readonly anchor: string } | null;
}

/** If the Moon is never higher than this, there is no space for its name. */
const LOWEST_NAMED_MOON_DEG = 3;
/** Minimum distance between the Moon's name and another word above the picture, as a fraction of its width. */
const APART = 0.08;
/** Distance from the picture's ends, as a fraction of its width, within which a name is moved inward. */
const RIM = 0.06;

/** The spans of each sky brightness, darkest last. */
export function skyBands(sky: SkyNight | null, span: Interval): { readonly span: Interval; readonly colour: string }[] {
  if (sky === null) return [{ span, colour: 'paper' }];
  const { civil, nautical, astronomical } = sky.twilight;
  // From noon the Sun passes each step downwards, then each upwards; a step that does not occur is left out.
  const steps: readonly (readonly [number | null, string])[] = [
    [span.startMs, 'day'],
    [sky.sunsetMs, 'civil'],
    [civil.duskMs, 'nautical'],
    [nautical.duskMs, 'astronomical'],
    [astronomical.duskMs, 'dark'],
    [astronomical.dawnMs, 'astronomical'],
    [nautical.dawnMs, 'nautical'],
    [civil.dawnMs, 'civil'],
    [sky.sunriseMs, 'day'],
  ];
  const happened = steps.flatMap(([atMs, name]) => (atMs === null ? [] : [{ atMs, name }]));
  const bands: { span: Interval; colour: string }[] = [];
  for (const [index, step] of happened.entries()) {
    const startMs = Math.max(span.startMs, step.atMs);
    const endMs = Math.min(span.endMs, happened[index + 1]?.atMs ?? span.endMs);
    if (endMs > startMs) bands.push({ span: { startMs, endMs }, colour: `sky-${step.name}` });
  }
  return bands;
}

/** A point in the box: 1000 wide, 90 degrees high. */
function point({ span }: TimeScale, atMs: number, altitudeDeg: number): string {
  const x = ((atMs - span.startMs) / (span.endMs - span.startMs)) * 1000;
  return `${x.toFixed(1)} ${(90 - Math.max(0, altitudeDeg)).toFixed(1)}`;
}

/** Spans of positions for which the condition holds. */
function stretches(points: readonly SkyPosition[], holds: (p: SkyPosition) => boolean): SkyPosition[][] {
  const out: SkyPosition[][] = [[]];
  for (const position of points) {
    if (holds(position)) out.at(-1)?.push(position);
    else out.push([]);
  }
  return out.filter((stretch) => stretch.length > 1);
}

function moonArea(points: readonly SkyPosition[], scale: TimeScale): string {
  return stretches(points, (p) => p.moonAltitudeDeg > 0)
    .map((up) => {
      const curve = up.map((p) => point(scale, p.atMs, p.moonAltitudeDeg));
      const [begin, end] = [itemAt(up, 0), itemAt(up, up.length - 1)].map(({ atMs }) => point(scale, atMs, 0));
      return `M${begin}L${curve.join('L')}L${end}Z`;
    })
    .join('');
}

function targetPath(curve: TargetCurve, span: Interval, scale: TimeScale): string {
  const points = curve.points.filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs && p.altitudeDeg > 0);
  return points.length < 2 ? '' : `M${points.map((p) => point(scale, p.atMs, p.altitudeDeg)).join('L')}`;
}

/** Where the Moon is labelled: at its highest, or as close to it as other words allow. */
function moonLabel(points: readonly SkyPosition[], words: readonly Interval[], scale: TimeScale): SkyView['moonLabel'] {
  const place = (atMs: number): number => scale.share(scale.span.startMs, atMs);
  const isClear = (atMs: number): boolean =>
    words.every(({ startMs, endMs }) => place(atMs) < place(startMs) - APART || place(atMs) > place(endMs) + APART);
  const highest = greatest(
    points.filter((p) => p.moonAltitudeDeg > LOWEST_NAMED_MOON_DEG && isClear(p.atMs)),
    (p) => p.moonAltitudeDeg,
  );
  if (highest === undefined) return null;
  const at = place(highest.atMs);
  return { x: scale.x(highest.atMs), anchor: at < RIM ? 'start' : at > 1 - RIM ? 'end' : 'middle' };
}

/**
 * Builds the background and the strip of altitudes.
 *
 * @param words spans that have their own words above the picture
 */
export function buildSky(night: Night, scale: TimeScale, words: readonly Interval[]): SkyView {
  const { span } = scale;
  const visible = (night.sky.curves[0]?.points ?? []).filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs);
  const targets = night.sky.curves.flatMap((curve) =>
    imagedSpans(night, curve.target).map((imaged) => targetPath(curve, imaged, scale)),
  );
  return {
    bands: skyBands(night.sky.almanac, span).map((band) => ({
      x: scale.x(band.span.startMs),
      width: scale.width(band.span.startMs, band.span.endMs),
      fill: cssColour(band.colour),
    })),
    moonPath: moonArea(visible, scale),
    targetPaths: targets.filter((path) => path !== ''),
    moonLabel: moonLabel(visible, words, scale),
  };
}
