/** One train's results on one target: drift, rotation, dithers. */
import {
  groupBy,
  separationDeg,
  type Activity,
  type Aim,
  type CameraTurnSeen,
  type ReferenceStar,
  type Target,
  type TrainPointing,
  type UnregisteredReason,
} from '../../model/index.js';
import {
  aimsOf,
  type AskedDither,
  ditherSpread,
  fieldRotation,
  type FrameFacts,
  movesSeen,
  trainDrift,
} from '../pair/index.js';
import { cameraTurns } from '../registration/index.js';
import type { LightGroup } from './lights.js';
import type { RegisteredGroup } from './register-night.js';

/** Number of stars in a drawing of the field. */
const MOST_DRAWN = 60;
const ARCSEC_PER_DEG = 3600;

/** The pointings of a group's first field, and its owner. */
export interface AimedGroup {
  readonly group: RegisteredGroup;
  /** Id of the reference frame. */
  readonly reference: string;
  readonly aims: readonly Aim[];
  readonly scaleArcsec: number | null;
}

/** The pointings of the field with most frames; `null` if no two frames match. */
export function aimedGroup(group: RegisteredGroup, scaleArcsec: number | null): AimedGroup | null {
  const [field] = group.fields;
  return field ? { group, reference: field.reference, aims: aimsOf(field, group, factsOf(group)), scaleArcsec } : null;
}

function factsOf({ lights }: LightGroup): ReadonlyMap<string, FrameFacts> {
  return new Map(
    lights.map(({ frame: { id, exposure }, measured: { stars } }) => [
      id,
      { seconds: (exposure.endMs - exposure.startMs) / 1000, fwhm: stars.fwhm, elongation: stars.elongation },
    ]),
  );
}

/** The logged dithers; `null` if none is logged and only the stars can show them. */
export function loggedDithers(activities: readonly Activity[]): readonly AskedDither[] | null {
  const moves = activities.filter((a) => a.kind === 'dither-move').filter((a) => a.certainty === 'measured');
  return moves.length === 0
    ? null
    : moves.map(({ span, facts }) => ({ atMs: span.startMs, askedPx: facts?.pixels ?? null }));
}

/** All results of one train on one target. */
export function trainPointing(
  { group, reference, aims, scaleArcsec }: AimedGroup,
  logged: readonly AskedDither[] | null,
  target: Target | undefined,
): TrainPointing {
  const { train, width, height } = group;
  const dithers = logged ?? movesSeen(aims).map((atMs): AskedDither => ({ atMs, askedPx: null }));
  const size = { width, height };
  return {
    train,
    target: group.target,
    size,
    scaleArcsec,
    reference,
    stars: brightestOf(group, reference),
    targetOffArcsec: targetOff(group, reference, target),
    registered: group.fields[0]?.frames.length ?? 0,
    elsewhere: group.fields.slice(1).reduce((sum, { frames }) => sum + frames.length, 0),
    unregistered: reasonsOf(group),
    drift:
      scaleArcsec === null
        ? null
        : trainDrift(
            aims,
            dithers.map(({ atMs }) => atMs),
            scaleArcsec,
          ),
    rotation: fieldRotation(aims, size, target?.decDeg ?? null),
    dithers: ditherSpread(aims, dithers),
    dithersBy: logged === null ? 'stars' : 'log',
    turns: turnsOf(group),
  };
}

function brightestOf({ lights }: RegisteredGroup, reference: string): readonly ReferenceStar[] {
  const list = lights.find(({ frame }) => frame.id === reference)?.measured.list.stars ?? [];
  const [brightest] = list;
  return brightest !== undefined && brightest.flux > 0
    ? list.slice(0, MOST_DRAWN).map(({ x, y, flux }) => ({ x, y, light: flux / brightest.flux }))
    : [];
}

/** The header's position is where the mount assumed it was pointing. */
function targetOff({ lights }: RegisteredGroup, reference: string, target: Target | undefined): number | null {
  const place = lights.find(({ frame }) => frame.id === reference)?.frame.header?.pointing;
  if (!target || place === undefined) return null;
  // A position derived from the headers themselves is no check on them.
  if (target.origin === 'headers') return null;
  return ARCSEC_PER_DEG * separationDeg(place.raDeg, place.decDeg, target.raDeg, target.decDeg);
}

function reasonsOf({ unregistered }: RegisteredGroup): TrainPointing['unregistered'] {
  const reasons = groupBy<RegisteredGroup['unregistered'][number], UnregisteredReason>(unregistered, ({ why }) => why);
  return [...reasons].map(([why, { length }]) => ({ why, frames: length }));
}

function turnsOf(group: RegisteredGroup): readonly CameraTurnSeen[] {
  const begins = new Map(group.lights.map(({ frame: { id, exposure } }) => [id, exposure.startMs]));
  return cameraTurns(group).flatMap(({ atKey, byDeg }): CameraTurnSeen[] => {
    const atMs = begins.get(atKey);
    return atMs === undefined ? [] : [{ atMs, byDeg }];
  });
}
