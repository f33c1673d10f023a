import type { EventName } from '../../../model/index.js';
import type { FrameTimes } from '../check/agreement.js';
import type { Kind } from './kinds/kind.js';

const NEAR_MS = 4000;
const QUARTER_MS = 900_000;
/** Lines of a kind, and frames, that are compared at most. */
const COMPARED = 300;
/** Lines that coincide with frames open the shutter, whatever their words; file names that exist are saved frames. */
const COINCIDES = 3;
const NAMED = 2;
const SHARE = 0.7;

/**
 * What the frames of the session say about kinds of lines.
 *
 * @param beside what else speaks for events of a kind
 */
export function frameEvidence(
  kinds: readonly Kind[],
  frames: readonly FrameTimes[],
  beside: (kind: Kind) => ReadonlyMap<EventName, number> = () => new Map(),
): Map<Kind, Map<EventName, number>> {
  const evidence = new Map<Kind, Map<EventName, number>>();
  const add = (kind: Kind, event: EventName, value: number): void => {
    const own = evidence.get(kind) ?? new Map<EventName, number>();
    evidence.set(kind, own.set(event, (own.get(event) ?? 0) + value));
  };
  const names = new Set(frames.map(({ file }) => baseName(file)));
  const begins = frames.map(({ beginMs }) => beginMs).slice(0, COMPARED);
  const ends = frames.map(({ beginMs, seconds }) => beginMs + seconds * 1000).slice(0, COMPARED);
  for (const kind of kinds) {
    for (const [event, value] of beside(kind)) add(kind, event, value);
    const files = kind.slots.find(({ type }) => type === 'file');
    if (files?.values.some((value) => names.has(baseName(value)))) add(kind, 'frame-saved', NAMED);
    if (kind.count < 4 || frames.length < 4 || kind.count > 3 * frames.length) continue;
    if (coincidence(kind.atMs, begins) >= SHARE) add(kind, 'exposure-begin', COINCIDES);
    else if (coincidence(kind.atMs, ends) >= SHARE) add(kind, 'exposure-end', COINCIDES / 2);
  }
  return evidence;
}

/**
 * The share of lines that stand at one of the instants, for the best shift by quarters of an hour: zone and date of
 * the lines are not known yet.
 */
function coincidence(linesMs: readonly number[], instants: readonly number[]): number {
  const lines = linesMs.filter((atMs) => !Number.isNaN(atMs)).slice(0, COMPARED);
  const votes = new Map<number, Set<number>>();
  for (const line of lines) {
    for (const instant of instants) {
      const quarters = Math.round((instant - line) / QUARTER_MS);
      if (Math.abs(instant - line - quarters * QUARTER_MS) > NEAR_MS) continue;
      const own = votes.get(quarters) ?? new Set<number>();
      votes.set(quarters, own.add(line));
    }
  }
  const most = Math.max(0, ...[...votes.values()].map(({ size }) => size));
  return most / Math.max(1, Math.min(lines.length, instants.length));
}

function baseName(path: string): string {
  return path.split(/[\\/]/).pop() ?? path;
}
