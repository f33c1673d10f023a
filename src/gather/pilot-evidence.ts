/** Which train is the pilot, from the session: whose log steers mount and guiding, else who begins first. */
import { join } from 'node:path';
import { increment, type HeaderFrame } from '../model/index.js';
import { beginningOf, type LogOwner } from './log-owners.js';
import type { SessionFile } from './session-files.js';

/** Number of bytes examined of each log. */
const LOOKED_AT = 2 ** 18;
/** Minimum ratio of steering lines in the pilot's log to any other, and their minimum number. */
const CLEARLY = 2;
const LEAST_LINES = 5;
/** A companion begins this long after the pilot, ms: two or three minutes are common practice, no source. */
const AFTER_MS = { least: 30_000, most: 900_000 };
/** Between two nights nobody exposes for this long, ms. */
const NIGHT_GAP_MS = 5 * 3_600_000;
/** Minimum fraction of the conclusive nights that must agree. */
const AGREED = 0.6;

/**
 * The train in whose log most lines are about dithers, guiding and the mount; `null` if none stands out.
 *
 * @param logs plain text
 * @param owners whose each log is
 */
export async function steeringTrain(
  root: string,
  logs: readonly SessionFile[],
  trains: readonly string[],
  owners: ReadonlyMap<string, LogOwner>,
): Promise<string | null> {
  const { tellsOfSteering } = await import('./dialects/draft/steering.js');
  const lines = new Map<string, number>(trains.map((id) => [id, 0]));
  for (const { path } of logs) {
    const train = owners.get(path)?.train;
    if (train === undefined || /\.gz$/i.test(path)) continue;
    for (const line of beginningOf(join(root, path), LOOKED_AT).split('\n'))
      if (tellsOfSteering(line)) increment(lines, train);
  }
  const [first, second] = [...lines].sort(([, a], [, b]) => b - a);
  if (!first || !second) return null;
  return first[1] >= LEAST_LINES && first[1] >= CLEARLY * second[1] ? first[0] : null;
}

/**
 * Which of several trains' lights begin first on most nights, a little before the others'.
 *
 * @param lights those of each train
 * @returns its index; `null` if nobody begins a little before the others
 */
export function firstToBegin(lights: readonly (readonly HeaderFrame[])[]): number | null {
  const begun = lights
    .flatMap((own, train) => own.flatMap((f) => (f.exposure ? [{ train, atMs: f.exposure.startMs }] : [])))
    .sort((a, b) => a.atMs - b.atMs);
  const votes = new Map<number, number>();
  let nights = 0;
  let sinceMs = -Infinity;
  let firsts = new Map<number, number>();
  const count = (): void => {
    const [first, second] = [...firsts];
    if (!first || !second) return;
    const apartMs = second[1] - first[1];
    if (apartMs < AFTER_MS.least || apartMs > AFTER_MS.most) return;
    nights++;
    increment(votes, first[0]);
  };
  for (const { train, atMs } of begun) {
    if (atMs - sinceMs > NIGHT_GAP_MS) {
      count();
      firsts = new Map();
    }
    sinceMs = atMs;
    if (!firsts.has(train)) firsts.set(train, atMs);
  }
  count();
  const [most] = [...votes].sort(([, a], [, b]) => b - a);
  return most && most[1] >= AGREED * nights ? most[0] : null;
}
