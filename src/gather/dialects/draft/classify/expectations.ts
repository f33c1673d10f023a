import type { EventName } from '../../../../model/index.js';

/** What stands around an event in a night: facts of the trade (common practice, no source). */
export interface Expectation {
  /** What comes before it, and after it, among events that are not told over others (saved frames, lost stars, cooling). */
  readonly after: readonly EventName[];
  readonly before: readonly EventName[];
  /** Whether the shutter is open then; `null` where it may be either way. */
  readonly inExposure: boolean | null;
  /** The other end of it must be the neighbour: the one before an end, the one after a beginning. */
  readonly partner?: EventName;
  /** Longest usual time to its partner, seconds. */
  readonly withinSeconds?: number;
}

const SHUTTER_CLOSES: readonly EventName[] = ['exposure-end', 'exposure-abort'];
const CALM: readonly EventName[] = ['settling-end', 'guiding-rest-end', 'dither-end', 'guiding-begin'];
const SHUTTER_OPENS: EventName = 'exposure-begin';

/** For every event that can be told by its neighbours. */
export const EXPECTATIONS: Readonly<Partial<Record<EventName, Expectation>>> = {
  'exposure-begin': {
    after: [
      ...SHUTTER_CLOSES,
      ...CALM,
      'filter-end',
      'focus-end',
      'centre-end',
      'hold-end',
      'slew-end',
      'settling-begin',
    ],
    before: SHUTTER_CLOSES,
    inExposure: false,
    partner: 'exposure-end',
    withinSeconds: 7200,
  },
  'exposure-end': {
    after: [SHUTTER_OPENS],
    before: [
      SHUTTER_OPENS,
      'dither-ready',
      'dither-begin',
      'filter-begin',
      'guiding-rest-begin',
      'guiding-end',
      'focus-begin',
      'hold-begin',
      'flip-begin',
      'slew-begin',
    ],
    inExposure: true,
    partner: 'exposure-begin',
    withinSeconds: 7200,
  },
  'dither-ready': { after: SHUTTER_CLOSES, before: ['dither-begin'], inExposure: false },
  'dither-begin': {
    after: [...SHUTTER_CLOSES, 'dither-ready'],
    before: ['dither-end', 'settling-begin', 'settling-end', SHUTTER_OPENS],
    inExposure: false,
    withinSeconds: 120,
  },
  'dither-end': {
    after: ['dither-begin'],
    before: ['settling-begin', 'settling-end', SHUTTER_OPENS, 'filter-begin'],
    inExposure: false,
    partner: 'dither-begin',
    withinSeconds: 60,
  },
  'settling-begin': {
    after: ['dither-end', 'dither-begin', 'guiding-begin', 'guiding-rest-end'],
    before: ['settling-end'],
    inExposure: false,
    partner: 'settling-end',
    withinSeconds: 180,
  },
  'settling-end': {
    after: ['settling-begin', 'dither-end', 'dither-begin', 'guiding-begin', 'guiding-rest-end'],
    before: [
      SHUTTER_OPENS,
      'filter-begin',
      'focus-begin',
      'guiding-rest-begin',
      'dither-begin',
      'dither-ready',
      'guiding-end',
    ],
    inExposure: false,
  },
  'focus-begin': {
    after: [
      'guiding-rest-begin',
      'filter-end',
      ...SHUTTER_CLOSES,
      'centre-end',
      'guiding-begin',
      'settling-end',
      'guiding-end',
      'slew-end',
    ],
    before: ['focus-end'],
    inExposure: false,
    partner: 'focus-end',
    withinSeconds: 900,
  },
  'focus-end': {
    after: ['focus-begin'],
    before: ['guiding-rest-end', 'guiding-begin', SHUTTER_OPENS, 'filter-begin', 'settling-begin'],
    inExposure: false,
    partner: 'focus-begin',
    withinSeconds: 900,
  },
  'filter-begin': {
    after: [
      ...SHUTTER_CLOSES,
      'centre-end',
      'settling-end',
      'focus-end',
      'guiding-rest-begin',
      'guiding-begin',
      'filter-end',
    ],
    before: ['filter-end'],
    inExposure: false,
    partner: 'filter-end',
    withinSeconds: 90,
  },
  'filter-end': {
    after: ['filter-begin'],
    before: [
      SHUTTER_OPENS,
      'focus-begin',
      'guiding-begin',
      'guiding-rest-end',
      'guiding-rest-begin',
      'filter-begin',
      'centre-begin',
    ],
    inExposure: false,
    partner: 'filter-begin',
    withinSeconds: 90,
  },
  'slew-begin': {
    after: ['guiding-end', ...SHUTTER_CLOSES, 'hold-end', 'centre-end'],
    before: ['slew-end'],
    inExposure: false,
    partner: 'slew-end',
    withinSeconds: 300,
  },
  'slew-end': {
    after: ['slew-begin'],
    before: ['centre-begin', SHUTTER_OPENS, 'filter-begin', 'focus-begin', 'guiding-begin'],
    inExposure: false,
    partner: 'slew-begin',
    withinSeconds: 300,
  },
  'centre-begin': {
    after: ['slew-end', 'flip-end', 'centre-end'],
    before: ['centre-end'],
    inExposure: false,
    partner: 'centre-end',
    withinSeconds: 600,
  },
  'centre-end': {
    after: ['centre-begin'],
    before: ['filter-begin', 'focus-begin', 'guiding-begin', SHUTTER_OPENS, 'centre-begin'],
    inExposure: false,
    partner: 'centre-begin',
    withinSeconds: 600,
  },
  'flip-begin': {
    after: ['guiding-end', ...SHUTTER_CLOSES],
    before: ['flip-end'],
    inExposure: false,
    partner: 'flip-end',
    withinSeconds: 900,
  },
  'flip-end': {
    after: ['flip-begin'],
    before: ['centre-begin', 'guiding-begin', 'slew-begin', 'focus-begin'],
    inExposure: false,
    partner: 'flip-begin',
    withinSeconds: 900,
  },
  'guiding-begin': {
    after: ['centre-end', 'focus-end', 'filter-end', 'slew-end', 'flip-end', 'guiding-end', 'hold-end'],
    before: ['settling-begin', 'settling-end', SHUTTER_OPENS, 'filter-begin', 'focus-begin'],
    inExposure: false,
  },
  'guiding-end': {
    after: [...SHUTTER_CLOSES, 'settling-end'],
    before: ['slew-begin', 'flip-begin', 'hold-begin', 'focus-begin', 'guiding-begin'],
    inExposure: false,
  },
  'guiding-rest-begin': {
    after: [...SHUTTER_CLOSES, 'settling-end', 'filter-end'],
    before: ['focus-begin', 'guiding-rest-end', 'filter-begin'],
    inExposure: false,
  },
  'guiding-rest-end': {
    after: ['focus-end', 'guiding-rest-begin', 'filter-end'],
    before: ['settling-begin', 'settling-end', SHUTTER_OPENS, 'filter-begin'],
    inExposure: false,
  },
  'star-gap-begin': { after: [], before: [], inExposure: true, partner: 'star-gap-end', withinSeconds: 900 },
  'star-gap-end': { after: [], before: [], inExposure: true, partner: 'star-gap-begin', withinSeconds: 900 },
  'hold-begin': {
    after: [...SHUTTER_CLOSES, SHUTTER_OPENS, 'guiding-end'],
    before: ['hold-end', 'guiding-end', ...SHUTTER_CLOSES],
    inExposure: null,
    partner: 'hold-end',
    withinSeconds: 36_000,
  },
  'hold-end': {
    after: ['hold-begin', 'guiding-end'],
    before: ['slew-begin', 'guiding-begin', 'centre-begin', SHUTTER_OPENS, 'focus-begin'],
    inExposure: false,
    partner: 'hold-begin',
    withinSeconds: 36_000,
  },
};

/** Events that are told over whatever else goes on, and hide no neighbour. */
export const TRANSPARENT: ReadonlySet<EventName> = new Set([
  'frame-saved',
  'star-gap-begin',
  'star-gap-end',
  'cooler',
  'note',
]);

/** Guiding is off, on or at rest: what may come before and after each change. */
export const GUIDING_STATES: Readonly<
  Partial<Record<EventName, { readonly after: readonly EventName[]; readonly before: readonly EventName[] }>>
> = {
  'guiding-begin': { after: ['guiding-end'], before: ['guiding-end', 'guiding-rest-begin'] },
  'guiding-end': { after: ['guiding-begin', 'guiding-rest-end'], before: ['guiding-begin'] },
  'guiding-rest-begin': { after: ['guiding-begin', 'guiding-rest-end'], before: ['guiding-rest-end'] },
  'guiding-rest-end': { after: ['guiding-rest-begin'], before: ['guiding-end', 'guiding-rest-begin'] },
};
