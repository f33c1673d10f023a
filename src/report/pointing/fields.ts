/**
 * Two trains' fields drawn over each other to scale, with the stars of their reference frames.
 */
import {
  decimal,
  type PairPointing,
  type PixelPoint,
  type ReferenceStar,
  type SensorSize,
  type TrainPointing,
} from '../../model/index.js';
import { cssColour } from '../design/tokens.js';
import { paperFor, roundLength, tidy, type Paper, type Room } from './paper.js';

/** One train's field. */
export interface FieldView {
  readonly name: string;
  readonly points: string;
  /** `var(--…)` */
  readonly colour: string;
  readonly label: { readonly x: number; readonly y: number; readonly anchor: 'start' | 'end' };
  /** The centre of the sensor. */
  readonly centre: { readonly x: number; readonly y: number };
  readonly stars: readonly { readonly x: number; readonly y: number; readonly r: number }[];
}

/** Both fields. */
export interface FieldsView {
  readonly width: number;
  readonly height: number;
  readonly first: FieldView;
  readonly second: FieldView;
  readonly common: string;
  /** A ring on which the target lies: its distance is known, its direction is not. */
  readonly target: { readonly x: number; readonly y: number; readonly r: number; readonly text: string } | null;
  readonly bar: { readonly x: number; readonly xEnd: number; readonly y: number; readonly text: string };
  readonly label: string;
}

const ROOM: Room = { width: 420, height: 400, margin: 24 };
/** Maximum fraction of the drawing's width for the bar. */
const BAR_SHARE = 0.22;
/** A ring is never drawn smaller than the cross in it. */
const LEAST_TARGET = 9;
const LEAST_RADIUS = 0.8;
const RADIUS_BY_LIGHT = 3.4;
/** Below and right of the drawing, space for the second train's name and the bar. */
const FOOT = 18;

/**
 * Arranges both fields in the pixels of the first.
 *
 * @param colourOf colour token of a train
 */
export function fieldsView(
  pair: PairPointing,
  first: TrainPointing,
  second: TrainPointing,
  colourOf: (train: string) => string,
): FieldsView {
  const { fieldOfB, overlapPolygon, overlapPercent } = pair.geometry;
  const fieldOfA = cornersOf(first.size);
  const paper = paperFor([...fieldOfA, ...fieldOfB], ROOM);
  const onFirst = ontoField(second.size, fieldOfB);
  const lowest = [...fieldOfB].sort((a, b) => a.y - b.y || b.x - a.x)[0] ?? { x: 0, y: 0 };
  const highest = fieldOfA[3] ?? { x: 0, y: 0 };
  const [a, b] = pair.trains;
  return {
    width: ROOM.width,
    height: tidy(paper.height + FOOT),
    first: {
      name: a,
      colour: cssColour(colourOf(a)),
      points: paper.points(fieldOfA),
      label: { x: paper.x(highest.x), y: tidy(paper.y(highest.y) - 6), anchor: 'start' },
      centre: placeOf(middleOf(fieldOfA), paper),
      stars: starsOn(first.stars, (p) => p, paper),
    },
    second: {
      name: b,
      colour: cssColour(colourOf(b)),
      points: paper.points(fieldOfB),
      label: { x: tidy(paper.x(lowest.x) - 7), y: tidy(paper.y(lowest.y) - 8), anchor: 'end' },
      centre: placeOf(middleOf(fieldOfB), paper),
      stars: starsOn(second.stars, onFirst, paper),
    },
    common: paper.points(overlapPolygon.a),
    target: targetOf(pair, first, paper),
    bar: barOf(first.scaleArcsec, paper),
    label:
      `The fields of ${a} and ${b} on ${pair.target}, to scale: ${decimal(overlapPercent.a, 0)} % of ${a}’s and ` +
      `${decimal(overlapPercent.b, 0)} % of ${b}’s are shared, the centres lie ${angle(pair.offsetArcsec)} ` +
      `apart, the cameras are rotated by ${decimal(pair.geometry.turn.byDeg, 1)}° against each other.`,
  };
}

/** About the centre of the first field, whose header states where the mount assumed it was pointing. */
function targetOf({ target }: PairPointing, first: TrainPointing, paper: Paper): FieldsView['target'] {
  const { targetOffArcsec, scaleArcsec, size } = first;
  if (targetOffArcsec === null || scaleArcsec === null) return null;
  const away = (targetOffArcsec / scaleArcsec) * paper.scale;
  const reach = (Math.hypot(size.width, size.height) / 2) * paper.scale;
  // Beyond the corners the target is in no part of the field, and no ring can show where.
  if (away > reach) return null;
  return { ...placeOf(middleOf(cornersOf(size)), paper), r: tidy(Math.max(LEAST_TARGET, away)), text: target };
}

/** `24″`, and from two minutes on `2.4′`. */
export function angle(arcsec: number): string {
  return arcsec < 120 ? `${decimal(arcsec, arcsec < 10 ? 1 : 0)}″` : `${decimal(arcsec / 60, 1)}′`;
}

function cornersOf({ width, height }: SensorSize): readonly PixelPoint[] {
  return [
    { x: 0.5, y: 0.5 },
    { x: width + 0.5, y: 0.5 },
    { x: width + 0.5, y: height + 0.5 },
    { x: 0.5, y: height + 0.5 },
  ];
}

/** Position of a pixel of the second sensor, interpolated from its corners. */
function ontoField({ width, height }: SensorSize, corners: readonly PixelPoint[]): (p: PixelPoint) => PixelPoint {
  const [origin, alongX, , alongY] = corners;
  if (!origin || !alongX || !alongY) return (p) => p;
  return ({ x, y }) => {
    const u = (x - 0.5) / width;
    const v = (y - 0.5) / height;
    return {
      x: origin.x + u * (alongX.x - origin.x) + v * (alongY.x - origin.x),
      y: origin.y + u * (alongX.y - origin.y) + v * (alongY.y - origin.y),
    };
  };
}

function middleOf(corners: readonly PixelPoint[]): PixelPoint {
  const [a, , c] = corners;
  return a && c ? { x: (a.x + c.x) / 2, y: (a.y + c.y) / 2 } : { x: 0, y: 0 };
}

function placeOf(p: PixelPoint, paper: Paper): { readonly x: number; readonly y: number } {
  return { x: paper.x(p.x), y: paper.y(p.y) };
}

/** Brighter is larger; the area grows with the square root of the light, as on sky charts. */
function starsOn(
  stars: readonly ReferenceStar[],
  onFirst: (p: PixelPoint) => PixelPoint,
  paper: Paper,
): FieldView['stars'] {
  return stars.map((star) => ({
    ...placeOf(onFirst(star), paper),
    r: tidy(LEAST_RADIUS + RADIUS_BY_LIGHT * Math.max(0, star.light) ** 0.25 - RADIUS_BY_LIGHT / 4),
  }));
}

function barOf(scaleArcsec: number | null, paper: Paper): FieldsView['bar'] {
  const y = tidy(paper.height + FOOT - 6);
  const most = (BAR_SHARE * ROOM.width) / paper.scale;
  const px = scaleArcsec === null ? roundLength(most) : lengthArcsec(most * scaleArcsec) / scaleArcsec;
  return {
    x: ROOM.margin,
    xEnd: tidy(ROOM.margin + px * paper.scale),
    y,
    text: scaleArcsec === null ? `${decimal(px, 0)} px` : angle(px * scaleArcsec),
  };
}

/** Round in seconds, and from two minutes on in minutes. */
function lengthArcsec(most: number): number {
  return most < 120 ? roundLength(most) : 60 * roundLength(most / 60);
}
