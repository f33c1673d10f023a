/** The section *Pointing of the pair*: where the trains were pointed, from the stars in their frames. */
import { counted, listed, type TrainPointing, type UnregisteredReason } from '../../../../model/index.js';
import { ditherMapView, type DitherMapView } from '../../../pointing/dither-map.js';
import { fieldsView, type FieldsView } from '../../../pointing/fields.js';
import type { ViewContext } from '../context.js';
import type { Table } from '../table.js';
import { ditherSizesTable, settlingTable } from './dithers.js';
import { driftTable, hoursTable, rotationTable } from './drift.js';
import { geometryTable } from './geometry.js';

export interface PairView {
  /** Two trains on one target each. */
  readonly fields: readonly { readonly title: string; readonly picture: FieldsView; readonly table: Table }[];
  /** Why no overlapping fields are drawn; empty when they are. */
  readonly noFields: string;
  readonly drift: Table | null;
  readonly hours: Table | null;
  readonly rotation: Table | null;
  readonly maps: readonly DitherMapView[];
  readonly dithers: Table | null;
  readonly settling: Table | null;
  /** Frames that could not be registered, rotated cameras, other fields. */
  readonly notes: readonly string[];
}

/** Builds the section; `null` if no frames could be registered. */
export function pairView(context: ViewContext): PairView | null {
  const { stars } = context.night;
  if (!stars || stars.pointings.length === 0) return null;
  const { pointings, pairs } = stars;
  const colourOf = (train: string): string => context.palette.train(train);
  const fields = pairs.flatMap((pair) => {
    const [first, second] = pair.trains.map((train) =>
      pointings.find((one) => one.train === train && one.target === pair.target),
    );
    if (!first || !second) return [];
    return [
      {
        title: `${pair.trains.join(' and ')} on ${pair.target}`,
        picture: fieldsView(pair, first, second, colourOf),
        table: geometryTable(pair, first, second),
      },
    ];
  });
  return {
    fields,
    noFields: fields.length > 0 ? '' : noFields(context),
    drift: driftTable(context),
    hours: hoursTable(context),
    rotation: rotationTable(context),
    maps: pointings.flatMap((one) =>
      one.dithers ? [ditherMapView(one, one.dithers, colourOf(one.train), (atMs) => context.clock.time(atMs))] : [],
    ),
    dithers: ditherSizesTable(context),
    settling: settlingTable(context),
    notes: pointings.flatMap((one) => notesOn(one, context)),
  };
}

function noFields({ night }: ViewContext): string {
  if (night.gathered.trains.length < 2) return '';
  return (
    'The trains’ fields are not drawn on one another: their reference frames have too few stars in common, or ' +
    'no scale is known.'
  );
}

/** Clauses that complete `3 frames could not be registered on the reference: …`. */
const REASONS: Readonly<Record<UnregisteredReason, string>> = {
  'too-few-stars': 'they have too few stars',
  'strips-not-enough': 'the strips that were read hold too few stars; read full frames with --stars full',
  'no-match': 'fewer than six of their stars match it',
  'as-a-random-field': 'the match could be chance',
  'nothing-moved': 'nothing in them moves as a sky would: hot pixels or a test image',
  alone: 'no other frame shows their field',
};

function notesOn({ train, target, unregistered, elsewhere, turns }: TrainPointing, { clock }: ViewContext): string[] {
  return [
    ...unregistered.map(
      ({ why, frames }) =>
        `${counted(frames, 'frame')} of ${train} on ${target} could not be registered on the reference: ` +
        `${REASONS[why]}.`,
    ),
    ...(elsewhere > 0
      ? [
          `${counted(elsewhere, 'frame')} of ${train} on ${target} show another field and have a reference of ` +
            'their own.',
        ]
      : []),
    ...(turns.length > 0
      ? [
          `The camera of ${train} was turned, or slipped, on ${target}: ` +
            listed(turns.map(({ atMs, byDeg }) => `by ${Math.abs(byDeg).toFixed(1)}° before ${clock.time(atMs)}`)) +
            '. Flats and dithers from before do not fit frames from after.',
        ]
      : []),
  ];
}
