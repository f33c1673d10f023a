/**
 * The shape of a finding module: one file, one registry line, one test of the same name.
 */
import type { Finding, Night } from '../model/index.js';

/** What a finding may need of the night before it can be assessed, and how to say that it is missing. */
export const NEEDS = {
  'two-trains': { missing: 'a second train', has: (night: Night) => night.trains.length >= 2 },
  dithers: { missing: 'dithers in the log', has: (night: Night) => night.dithers.length > 0 },
  'event-log': { missing: 'an event log', has: (night: Night) => !night.headersOnly },
  'guiding-events': {
    missing: 'guiding events in a log',
    has: (night: Night) => night.activities.some((a) => a.kind.startsWith('guiding-')),
  },
  'guiding-samples': { missing: 'a guiding log with samples', has: (night: Night) => night.guiding !== null },
  sky: { missing: 'the site', has: (night: Night) => night.sky !== null },
  lights: { missing: 'lights', has: (night: Night) => night.frames.length > 0 },
} as const satisfies Record<string, { missing: string; has: (night: Night) => boolean }>;
export type Need = keyof typeof NEEDS;

/** A finding's thresholds: plain numbers, so that they can be printed and set. */
export type Thresholds = Readonly<Record<string, number>>;

/** One question asked of every night. `find` is called only when every need is met. */
export interface FindingModule<T extends Thresholds = Thresholds> {
  /** The file's name and the test's name. */
  readonly id: string;
  /** What it is about, as a noun; shown when it is not assessed. */
  readonly title: string;
  readonly needs: readonly Need[];
  readonly defaults: T;
  /** Findings on this night, unranked; empty when there is nothing to say. */
  find(night: Night, options: T): Omit<Finding, 'id'>[];
}

/** Said wherever advice touches what moves or what is under mains. */
export const CAUTION =
  'Try it first by day or while watching: mind cables, stops and the pier, and follow the instructions of the makers of mount and roof and your local electrical code; leave mains work to licensed people.';
