/**
 * Short ways to write log events and frames in tests. Times are given as `HH:MM:SS` of one invented night.
 */
import {
  interval,
  bareEvent,
  type EventFields,
  type EventName,
  type FieldOf,
  type DatedLight,
  type Frame,
  type LogEvent,
} from '../../src/model/index.js';

/** UTC ms of a time in the night of 2026-10-14; hours below 12 belong to the morning after. */
export function at(time: string): number {
  const [h = 0, m = 0, s = 0] = time.split(':').map(Number);
  const day = h < 12 ? 15 : 14;
  return Date.UTC(2026, 9, day, h, m, 0) + Math.round(s * 1000);
}

let line = 0;

/** A log event of a train. */
export function event<E extends EventName>(
  time: string,
  name: E,
  fields: Pick<EventFields, FieldOf<E>> | Record<string, never> = {},
  train: string | undefined = 'heron',
): LogEvent {
  const source = { file: `logs/${train ?? 'guiding'}.jsonl`, line: ++line };
  return Object.assign(bareEvent(name, at(time), train, source), fields);
}

/** A frame's header. */
export function header(file: string, begin: string, seconds: number, facts: Partial<DatedLight> = {}): DatedLight {
  const startMs = at(begin);
  return {
    file,
    sizeBytes: 5760,
    headerHash: `${file}-${startMs}`,
    kind: 'light',
    target: 'NGC 281',
    filter: 'Ha',
    exposure: interval(startMs, startMs + Math.round(seconds * 1000)),
    exposureSeconds: seconds,
    ...facts,
  };
}

/** A reconstructed light. */
export function light(train: string, begin: string, seconds: number, more: Partial<Frame> = {}): Frame {
  const startMs = at(begin);
  return {
    id: `${train}-${begin}`,
    train,
    kind: 'light',
    exposure: interval(startMs, startMs + Math.round(seconds * 1000)),
    target: 'NGC 281',
    filter: 'Ha',
    provenance: 'log-and-file',
    file: `${train}-${begin}.fits`,
    sources: [],
    ...more,
  };
}
