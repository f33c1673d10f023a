import type { EventName } from '../../../../model/index.js';
import type { Motion } from './motions.js';
import type { SubjectId } from './subjects.js';

/** What each motion means for a subject, with the evidence. */
type Outcomes = Partial<Record<Motion, readonly [EventName, number]>>;

const span = (begin: EventName, end: EventName): Outcomes => ({
  start: [begin, 1.2],
  doing: [begin, 1],
  stop: [end, 1.2],

  arrive: [end, 1.3],
  did: [end, 1.1],
  fail: [end, 1.4],
  abort: [end, 1.2],
});

/** Opened and closed like a record in the log. */
const record = (begin: EventName, end: EventName): Outcomes => ({
  ...span(begin, end),
  open: [begin, 0.9],
  close: [end, 0.9],
});

/** What a motion means for each subject, with the evidence. */
export const OUTCOMES: Readonly<Record<Exclude<SubjectId, 'noise' | 'hold'>, Outcomes>> = {
  exposure: {
    ...span('exposure-begin', 'exposure-end'),
    open: ['exposure-begin', 1.5],
    close: ['exposure-end', 1.5],
    abort: ['exposure-abort', 1.6],
    resume: ['hold-end', 1.2],
  },
  frame: {},
  dither: {
    ...span('dither-begin', 'dither-end'),
    ready: ['dither-ready', 2],
    wait: ['dither-ready', 1.8],
    pause: ['dither-ready', 1.6],
  },
  settling: { ...record('settling-begin', 'settling-end'), wait: ['settling-begin', 1.6], find: ['settling-end', 1] },
  focus: { ...record('focus-begin', 'focus-end'), find: ['focus-end', 1.1] },
  filter: record('filter-begin', 'filter-end'),
  slew: record('slew-begin', 'slew-end'),
  centre: { ...record('centre-begin', 'centre-end'), find: ['centre-end', 0.9] },
  flip: record('flip-begin', 'flip-end'),
  guiding: {
    start: ['guiding-begin', 1.2],
    grab: ['guiding-begin', 1.4],
    release: ['guiding-end', 1.4],
    stop: ['guiding-end', 1.2],
    close: ['guiding-end', 0.8],
    pause: ['guiding-rest-begin', 1.7],
    resume: ['guiding-rest-end', 1.7],
    lose: ['star-gap-begin', 1.2],
    find: ['star-gap-end', 1.2],
    ready: ['dither-ready', 0.4],
  },
  star: {
    lose: ['star-gap-begin', 1.6],
    stop: ['star-gap-begin', 0.8],
    find: ['star-gap-end', 1.6],
    resume: ['star-gap-end', 1],
    start: ['star-gap-end', 0.4],
    grab: ['guiding-begin', 1.3],
    release: ['guiding-end', 1.3],
  },
  // A session is paused and resumed; its start and end hold nothing up.
  session: { pause: ['hold-begin', 1.6], resume: ['hold-end', 1.6], danger: ['hold-begin', 1.6] },
  cooler: {},
};

/** The possible events of a subject if no outcome is stated. */
export const BARE: Readonly<Record<SubjectId, readonly (readonly [EventName, number])[]>> = {
  exposure: [
    ['exposure-begin', 0.4],
    ['exposure-end', 0],
  ],
  frame: [],
  dither: [
    ['dither-begin', 0.8],
    ['dither-end', 0],
  ],
  settling: [
    ['settling-begin', 0],
    ['settling-end', 0.5],
  ],
  focus: [
    ['focus-begin', 0.2],
    ['focus-end', 0],
  ],
  filter: [
    ['filter-begin', 0.3],
    ['filter-end', 0.1],
  ],
  slew: [
    ['slew-begin', 0.3],
    ['slew-end', 0],
  ],
  centre: [
    ['centre-begin', 0.3],
    ['centre-end', 0],
  ],
  flip: [
    ['flip-begin', 0.3],
    ['flip-end', 0],
  ],
  guiding: [
    ['guiding-begin', 0.1],
    ['guiding-end', 0],
    ['guiding-rest-begin', 0],
    ['guiding-rest-end', 0],
  ],
  star: [
    ['star-gap-begin', 0],
    ['star-gap-end', 0],
  ],
  hold: [
    ['hold-begin', 0.2],
    ['hold-end', 0],
  ],
  session: [],
  cooler: [],
  noise: [],
};
