/**
 * The published types of a record (schema/night-1.d.ts, made of the schema) are those that the code checks a record by:
 * the type check of the tests holds it, in both directions.
 */
import type * as published from '../../schema/night-1.js';
import type * as ours from '../../src/record/schema.js';

export const there = (record: ours.NightRecord): published.NightRecord => record;
export const back = (record: published.NightRecord): ours.NightRecord => record;
export const sessionThere = (record: ours.SessionRecord): published.SessionRecord => record;
export const sessionBack = (record: published.SessionRecord): ours.SessionRecord => record;
export const frameThere = (record: ours.FrameRecord): published.FrameRecord => record;
export const frameBack = (record: published.FrameRecord): ours.FrameRecord => record;
