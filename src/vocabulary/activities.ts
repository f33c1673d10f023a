import type { Account } from './accounts.js';
import type { FieldName } from './events.js';
import { keysOf } from './table.js';

interface ActivityRow {
  readonly label: string;
  /** Whose lane it is on. Mount and guiding are shared by every train; a hold may be one train's or everyone's. */
  readonly lane: 'mount' | 'guiding' | 'train' | 'all';
  /** What its log may state about it: fields of the events that begin and end it. */
  readonly facts?: readonly FieldName[];
  /** The account it claims on a train's ledger, and the label there. */
  readonly claims?: { readonly account: Account; readonly label?: string };
  /** The mount is in motion or settling: an open shutter is harmed. The text completes "… for 12 s". */
  readonly motion?: string;
  /** The mount goes to another place in the sky. */
  readonly pointing?: true;
  /** No guiding: `stretch` after it had been on, `start` before it is. An open shutter is harmed. */
  readonly guidingOff?: 'stretch' | 'start';
  /** Guiding samples in it are the activity's own excursions and unrelated to guiding quality. */
  readonly excursion?: true;
}

/** What a lane can be doing. */
export const ACTIVITIES = {
  slew: {
    label: 'slew',
    lane: 'mount',
    facts: ['ok'],
    claims: { account: 'pointing', label: 'slewing' },
    motion: 'the mount was slewing',
    pointing: true,
    excursion: true,
  },
  centre: {
    label: 'centring',
    lane: 'mount',
    facts: ['ok'],
    claims: { account: 'pointing', label: 'centring' },
    motion: 'the target was being centred',
    pointing: true,
  },
  flip: {
    label: 'meridian flip',
    lane: 'mount',
    facts: ['ok'],
    claims: { account: 'pointing', label: 'meridian flip' },
    motion: 'the mount was turning to the other side of the pier',
    pointing: true,
    excursion: true,
  },
  'dither-move': {
    label: 'dither',
    lane: 'mount',
    facts: ['ok', 'pixels'],
    claims: { account: 'dither', label: 'moving' },
    motion: 'the mount was dithering',
    excursion: true,
  },
  settling: {
    label: 'settling',
    lane: 'mount',
    facts: ['ok'],
    claims: { account: 'dither', label: 'settling' },
    motion: 'the mount was settling after the dither',
    excursion: true,
  },
  'guiding-start': {
    label: 'guiding starts',
    lane: 'guiding',
    facts: ['ok'],
    claims: { account: 'guiding', label: 'starting' },
    guidingOff: 'start',
    excursion: true,
  },
  'guiding-on': { label: 'guiding', lane: 'guiding' },
  'guiding-rest': { label: 'guiding paused', lane: 'guiding', guidingOff: 'stretch' },
  'star-gap': {
    label: 'guide star lost',
    lane: 'guiding',
    claims: { account: 'guiding', label: 'recovering the star' },
    guidingOff: 'stretch',
    excursion: true,
  },
  'guiding-stopped': { label: 'guiding stopped', lane: 'guiding', guidingOff: 'stretch' },
  readout: { label: 'readout', lane: 'train', claims: { account: 'readout' } },
  focus: {
    label: 'focus',
    lane: 'train',
    facts: ['ok', 'sizeBefore', 'sizeAfter', 'position', 'temperature'],
    claims: { account: 'focus' },
  },
  filter: { label: 'filter change', lane: 'train', facts: ['to'], claims: { account: 'filter' } },
  'dither-ready': { label: 'dither wait', lane: 'train' },
  hold: { label: 'on hold', lane: 'all', claims: { account: 'hold' } },
} as const satisfies Readonly<Record<string, ActivityRow>>;

/** What a lane is doing. */
export type ActivityKind = keyof typeof ACTIVITIES;
export const ACTIVITY_KINDS = keysOf(ACTIVITIES);

type FactsColumn<K extends ActivityKind> = (typeof ACTIVITIES)[K] extends { readonly facts: readonly (infer F)[] }
  ? F
  : never;
/** The facts that an activity of the kind may have. */
export type FactOf<K extends ActivityKind> = Extract<FactsColumn<K>, FieldName>;

/** A kind's row, with the optional columns to be asked for. */
export function activityRow(kind: ActivityKind): ActivityRow {
  return ACTIVITIES[kind];
}

/** The kinds whose row is such. */
export function activityKinds(isSuch: (row: ActivityRow) => boolean): readonly ActivityKind[] {
  return ACTIVITY_KINDS.filter((kind) => isSuch(activityRow(kind)));
}

/** The mount moves or settles. */
export const MOUNT_KINDS = activityKinds((row) => row.motion !== undefined);
/** The mount goes to another place in the sky. */
export const POINTING_KINDS = activityKinds((row) => row.pointing === true);
/** Guiding rests, lost its star or stopped; a start that is not yet settled is not among them. */
export const GUIDING_OFF_KINDS = activityKinds((row) => row.guidingOff === 'stretch');
/** No guiding, for whatever reason: used to judge frames. */
export const UNGUIDED_KINDS = activityKinds((row) => row.guidingOff !== undefined);
/** Guiding samples within these are excluded from guiding quality. */
export const EXCURSION_KINDS = activityKinds((row) => row.excursion === true);
