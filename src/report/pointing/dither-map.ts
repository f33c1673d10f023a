/** A train's dither positions in its own pixels, with the order of the steps. */
import { counted, decimal, type DitherSpread, type TrainPointing } from '../../model/index.js';
import { cssColour } from '../design/tokens.js';
import { paperFor, roundLength, tidy, type Room } from './paper.js';

/** One position on the map. */
export interface PlaceView {
  readonly x: number;
  readonly y: number;
  /** Its number in chronological order; empty if too many would overlap. */
  readonly text: string;
  /** Within a pixel of another position. */
  readonly repeats: boolean;
  readonly title: string;
}

/** The map of one train on one target. */
export interface DitherMapView {
  readonly caption: string;
  readonly width: number;
  readonly height: number;
  readonly colour: string;
  /** The path from position to position; one line for each side of the pier. */
  readonly ways: readonly string[];
  readonly places: readonly PlaceView[];
  readonly bar: { readonly x: number; readonly xEnd: number; readonly y: number; readonly text: string };
  readonly label: string;
}

const ROOM: Room = { width: 320, height: 300, margin: 22 };
const FOOT = 18;
/** More numbers than this would overlap: then only the first and the last have one. */
const MOST_NUMBERS = 24;
/** A map is never drawn so large that a tenth of a pixel looks like a dither, px across. */
const LEAST_SPAN_PX = 2;
const BAR_SHARE = 0.25;

/** Draws a train's positions on a target. */
export function ditherMapView(
  { train, target }: Pick<TrainPointing, 'train' | 'target'>,
  { places, repeats }: DitherSpread,
  colour: string,
  timeOf: (atMs: number) => string,
): DitherMapView {
  const paper = paperFor([...places, ...leastSpan(places)], ROOM);
  const twice = new Set(repeats.flatMap(({ first, second }) => [first, second]));
  const bar = roundLength((BAR_SHARE * ROOM.width) / paper.scale);
  const isNumbered = (index: number): boolean =>
    places.length <= MOST_NUMBERS || index === 0 || index === places.length - 1;
  return {
    caption: `${train} on ${target}`,
    width: ROOM.width,
    height: tidy(paper.height + FOOT),
    colour: cssColour(colour),
    ways: [false, true].flatMap((side) => {
      const there = places.filter(({ flipped }) => flipped === side);
      return there.length > 1 ? [paper.points(there)] : [];
    }),
    places: places.map((place, index) => ({
      x: paper.x(place.x),
      y: paper.y(place.y),
      text: isNumbered(index) ? String(index + 1) : '',
      repeats: twice.has(index),
      title: `${index + 1}, ${timeOf(place.startMs)}: ${counted(place.frames, 'frame')}`,
    })),
    bar: {
      x: ROOM.margin,
      xEnd: tidy(ROOM.margin + bar * paper.scale),
      y: tidy(paper.height + FOOT - 6),
      text: `${decimal(bar, bar < 1 ? 1 : 0)} px`,
    },
    label:
      `Positions of ${train} on ${target} after each dither, numbered in order: ` +
      `${counted(places.length, 'place')}, ${repeats.length === 0 ? 'none' : counted(repeats.length, 'pair')} ` +
      'within a pixel of each other.',
  };
}

function leastSpan(places: DitherSpread['places']): readonly { readonly x: number; readonly y: number }[] {
  const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  const x = middle(places.map((p) => p.x));
  const y = middle(places.map((p) => p.y));
  return [-1, 1].map((side) => ({ x: x + (side * LEAST_SPAN_PX) / 2, y: y + (side * LEAST_SPAN_PX) / 2 }));
}
