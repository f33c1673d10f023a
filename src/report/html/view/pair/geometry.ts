/** How two fields overlap, in figures. */
import {
  decimal,
  UNKNOWN,
  type PairPointing,
  type PixelPoint,
  type Similarity,
  type TrainPointing,
} from '../../../../model/index.js';
import { angle } from '../../../pointing/fields.js';
import { column, words, type Row, type Table } from '../table.js';

type Overlap = PairPointing['geometry']['overlapPercent'];

/** The figures next to the drawing of two fields. */
export function geometryTable(pair: PairPointing, first: TrainPointing, second: TrainPointing): Table {
  const { geometry, trains } = pair;
  const { overlapPercent, turn, centred } = geometry;
  const [a, b] = trains;
  const row = (what: string, found: string, wins = ''): Row => ({
    cells: [words(what, { header: true }), words(found), words(wins)],
  });
  return {
    caption: `How the fields of ${a} and ${b} overlap`,
    name: 'geometry',
    columns: [column('What'), column('Found'), column('What a change would add')],
    rows: [
      row('Common field', shares(overlapPercent, trains)),
      row(
        'Centres apart',
        angle(geometry.offsetArcsec),
        `centres together: ${gain(overlapPercent, centred.overlapPercent, trains)}`,
      ),
      row(
        'Cameras rotated',
        `${decimal(Math.abs(turn.byDeg), 2)}°${geometry.mirrored ? ', one of them mirrored' : ''}`,
        `${b}’s camera turned by ${decimal(Math.abs(turn.byDeg), 1)}° ` +
          `${turn.byDeg < 0 ? 'from +y to +x' : 'from +x to +y'} of its frames: ` +
          `${gain(overlapPercent, turn.overlapPercent, trains)}`,
      ),
      row('Scale', scaleText(pair, first, second)),
      ...targetRows(pair, first, second).map(([what, found]) => row(what, found)),
      row('Matching stars', String(pair.matched)),
    ],
  };
}

function shares({ a, b }: Overlap, [first, second]: PairPointing['trains']): string {
  return `${decimal(a, 1)} % of ${first}, ${decimal(b, 1)} % of ${second}`;
}

/** The gain of a change for the common field, in percentage points for each train. */
function gain(before: Overlap, after: Overlap, [first, second]: PairPointing['trains']): string {
  const more = { a: after.a - before.a, b: after.b - before.b };
  if (Math.max(more.a, more.b) < 0.05) return 'no more common field';
  return `${signed(more.a)} % of ${first}, ${signed(more.b)} % of ${second}`;
}

function signed(value: number): string {
  const text = decimal(value, 1);
  return value >= 0.05 ? `+${text}` : text;
}

function scaleText({ scaleRatio }: PairPointing, first: TrainPointing, second: TrainPointing): string {
  const measured = `${decimal(scaleRatio, 4)} px of ${second.train} for one of ${first.train}`;
  if (first.scaleArcsec === null || second.scaleArcsec === null) return measured;
  return `${measured}; ${decimal(first.scaleArcsec / second.scaleArcsec, 4)} by the rig`;
}

/**
 * The headers of both trains state where the mount assumed it was pointing, which is the first train's centre; the
 * second's position follows from how the fields overlap.
 */
function targetRows(
  { geometry }: PairPointing,
  first: TrainPointing,
  second: TrainPointing,
): readonly (readonly [string, string])[] {
  const off = first.targetOffArcsec;
  if (off === null)
    return [['Target', `${UNKNOWN}: no header says where the mount pointed, or its coordinates are not known`]];
  const { similarity, offsetArcsec } = geometry;
  const middle = transformed(similarity, { x: (first.size.width + 1) / 2, y: (first.size.height + 1) / 2 });
  const isInside = middle.x > 0.5 && middle.y > 0.5 && middle.x < second.size.width && middle.y < second.size.height;
  return [
    [`Target in ${first.train}`, `${angle(off)} from the centre, by the header`],
    [
      `Target in ${second.train}`,
      `${range(Math.max(0, offsetArcsec - off), offsetArcsec + off)} from the centre, ` +
        (isInside ? 'near' : 'outside the field, towards') +
        ` x ${decimal(middle.x, 0)}, y ${decimal(middle.y, 0)}`,
    ],
  ];
}

function transformed({ x, y, rotation, scale, mirrored }: Similarity, p: PixelPoint): PixelPoint {
  const angle = (rotation * Math.PI) / 180;
  const up = mirrored ? -p.y : p.y;
  return {
    x: x + scale * (p.x * Math.cos(angle) - up * Math.sin(angle)),
    y: y + scale * (p.x * Math.sin(angle) + up * Math.cos(angle)),
  };
}

/** Two angles as a range; one if they are displayed alike. */
function range(least: number, most: number): string {
  return angle(least) === angle(most) ? angle(least) : `${angle(least)} to ${angle(most)}`;
}
