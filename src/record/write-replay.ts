/** The replay of a night in its record. */
import type { Replay, ReplayOutcome, WhatIf } from '../model/index.js';
import type { ReplayRecord } from './replay.js';

/** The record of a replay. */
export function toReplayRecord(replay: Replay): ReplayRecord {
  return {
    error: replay.errorShare,
    confidence: replay.confidence,
    runs: replay.runs,
    asItWas: toOutcome(replay.baseline),
    whatIfs: replay.whatIfs.map(toWhatIf),
    best: replay.best && toWhatIf(replay.best),
  };
}

function toWhatIf({
  id,
  title,
  settings,
  gain,
  outcome: of,
  outside,
  newDarks,
}: WhatIf): ReplayRecord['whatIfs'][number] {
  return {
    id,
    title,
    settings: [...settings],
    gainSeconds: toSeconds(gain.meanMs),
    gainRange: [toSeconds(gain.lowMs), toSeconds(gain.highMs)],
    trains: toOutcome(of),
    outside: [...outside],
    newDarks: [...newDarks],
  };
}

function toOutcome({ trains }: ReplayOutcome): ReplayRecord['asItWas'] {
  return Object.fromEntries(
    Object.entries(trains).map(([id, t]) => [
      id,
      { kept: toSeconds(t.keptMs), lostOrDoubtful: t.lostOrDoubtfulFrames, waited: toSeconds(t.waitedMs) },
    ]),
  );
}

/** Means of whole milliseconds, to the millisecond. */
function toSeconds(ms: number): number {
  return Math.round(ms) / 1000;
}
