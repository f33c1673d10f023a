import type { Interval, Night, SkyNight, SkyPosition, TargetCurve } from '../../model/index.js';
import { imagedSpans } from '../figures/imaged.js';
import { cssColour } from '../design/tokens.js';
import type { TimeScale } from './scale.js';

export interface SkyBand {
  readonly x: string;
  readonly width: string;
  readonly fill: string;
}

/** Sky behind the lanes, and the strip with the altitudes of the Moon and of the target being imaged. */
export interface SkyView {
  readonly bands: readonly SkyBand[];
  /** Path in a box of 1000 × 90: the Moon's altitude as an area. Absent below the horizon all night. */
  readonly moonPath: string;
  /** Paths in the same box: the imaged target's altitude while it was imaged. */
  readonly targetPaths: readonly string[];
  readonly moonLabel: { readonly x: string; readonly anchor: string } | null;
}

/** The stretches of one brightness of the sky over the span, darkest last. */
export function skyBands(sky: SkyNight | null, span: Interval): { readonly span: Interval; readonly colour: string }[] {
  if (sky === null) return [{ span, colour: 'paper' }];
  const { civil, nautical, astronomical } = sky.twilight;
  // From noon the Sun passes each step down, then each up again; a step that does not happen is left out.
  const steps: readonly (readonly [number | null, string])[] = [
    [span.startMs, 'day'], [sky.sunsetMs, 'civil'], [civil.duskMs, 'nautical'], [nautical.duskMs, 'astronomical'], [astronomical.duskMs, 'dark'],
    [astronomical.dawnMs, 'astronomical'], [nautical.dawnMs, 'nautical'], [civil.dawnMs, 'civil'], [sky.sunriseMs, 'day'],
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

function point(scale: TimeScale, atMs: number, altitudeDeg: number): string {
  const x = ((atMs - scale.span.startMs) / (scale.span.endMs - scale.span.startMs)) * 1000;
  return `${x.toFixed(1)} ${(90 - Math.max(0, altitudeDeg)).toFixed(1)}`;
}

function moonArea(points: readonly SkyPosition[], scale: TimeScale): string {
  const paths: string[] = [];
  let run: SkyPosition[] = [];
  const close = (): void => {
    const [first, last] = [run[0], run[run.length - 1]];
    if (first && last && run.length > 1) paths.push(`M${point(scale, first.atMs, 0)}L${run.map((p) => point(scale, p.atMs, p.moonAltitudeDeg)).join('L')}L${point(scale, last.atMs, 0)}Z`);
    run = [];
  };
  for (const position of points) {
    if (position.moonAltitudeDeg > 0) run.push(position);
    else close();
  }
  close();
  return paths.join('');
}

function targetPath(curve: TargetCurve, span: Interval, scale: TimeScale): string {
  const points = curve.points.filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs && p.altitudeDeg > 0);
  return points.length < 2 ? '' : `M${points.map((p) => point(scale, p.atMs, p.altitudeDeg)).join('L')}`;
}

/** Builds the background and the strip of altitudes. */
export function buildSky(night: Night, scale: TimeScale): SkyView {
  const step = scale.span.endMs - scale.span.startMs;
  const positions = (night.curves[0]?.points ?? []).filter((p) => p.atMs > scale.span.startMs - step && p.atMs < scale.span.endMs + step);
  const visible = positions.filter((p) => p.atMs >= scale.span.startMs && p.atMs <= scale.span.endMs);
  const highest = visible.filter((p) => p.moonAltitudeDeg > 8).reduce<SkyPosition | null>((best, p) => (best === null || p.moonAltitudeDeg > best.moonAltitudeDeg ? p : best), null);
  const place = highest === null ? 0 : (highest.atMs - scale.span.startMs) / step;
  return {
    bands: skyBands(night.sky, scale.span).map(({ span, colour }) => ({ x: scale.x(span.startMs), width: scale.width(span.startMs, span.endMs), fill: cssColour(colour) })),
    moonPath: moonArea(visible, scale),
    targetPaths: night.curves.flatMap((curve) => imagedSpans(night, curve.target).map((span) => targetPath(curve, span, scale))).filter((path) => path !== ''),
    moonLabel: highest === null ? null : { x: scale.x(highest.atMs), anchor: place < 0.06 ? 'start' : place > 0.94 ? 'end' : 'middle' },
  };
}
