/**
 * What the clocks say of a simulated night in which one train's computer wrote times of its own.
 */
import { lineTimesOf, type ClockNote, type TellingEvent } from '../../src/model/index.js';
import { compareClocks } from '../../src/reconstruct/index.js';
import type { SimulatedEvent, SimulatedFrame } from './generator/simulation.js';
import { framePath } from './generator/truth.js';
import { simulated } from './random-night.js';

/**
 * @param ahead how far the train's computer is ahead at a share of the night, ms
 * @param isLogged which events the logs hold
 */
export function clocksWith(
  seed: number,
  train: string,
  ahead: (share: number, hours: number) => number,
  isLogged: (event: SimulatedEvent) => boolean = () => true,
): readonly ClockNote[] {
  const { events, frames } = simulated(seed);
  const instants = events.map((e) => e.atMs);
  const [fromMs, toMs] = [Math.min(...instants), Math.max(...instants)];
  const written = (own: string, atMs: number): number =>
    own === train ? Math.round(atMs + ahead((atMs - fromMs) / (toMs - fromMs), (atMs - fromMs) / 3_600_000)) : atMs;
  const logged = events.filter(isLogged).map((e, i) => eventOf(e, i, written(e.train, e.atMs)));
  return compareClocks({
    trains: ['heron', 'wren'],
    headers: frames.filter((f) => !f.aborted).map((f) => headerOf(f, written(f.train, f.beginMs))),
    events: logged,
    lineTimes: lineTimesOf(logged),
    byHandMs: new Map(),
  }).notes;
}

function eventOf({ atMs: _, ...rest }: SimulatedEvent, line: number, atMs: number): TellingEvent {
  return { ...rest, atMs, source: { file: `${rest.train}.jsonl`, line } } as TellingEvent;
}

function headerOf(frame: SimulatedFrame, startMs: number) {
  const lengthMs = frame.endMs - frame.beginMs;
  const file = framePath(frame);
  return {
    train: frame.train,
    file,
    sizeBytes: 5760,
    headerHash: file,
    kind: 'light' as const,
    exposure: { startMs, endMs: startMs + lengthMs },
    exposureSeconds: lengthMs / 1000,
  };
}
