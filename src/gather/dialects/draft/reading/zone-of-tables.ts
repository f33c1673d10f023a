import { newStamp, StampPattern } from '../../time/stamp.js';
import type { StampGuess } from '../time/guess.js';
import { zoneAhead } from '../time/same-instant.js';
import type { Reading } from './reading.js';

const DAY_MS = 86_400_000;
/** A table about the same night begins shortly before another, and ends shortly after it. */
const SLACK_MS = 600_000;

/** If one table states its zone and another does not, the same zone if the times of one lie within the other's. */
export function withZone(stamp: StampGuess | null, tables: readonly Reading[]): StampGuess | null {
  const spans = tables.map((reading) => {
    const times = reading.fieldLines.map(({ atMs }) => atMs).filter((atMs) => !Number.isNaN(atMs));
    const [from, to] = [times[0] ?? NaN, times.at(-1) ?? NaN];
    const zone = zoneOf(reading);
    return { from: from % DAY_MS, lengthMs: (to - from + DAY_MS) % DAY_MS, zone };
  });
  const stated = spans.find(({ zone }) => zone !== null);
  const others = spans.filter(({ zone }) => zone === null);
  if (stamp === null || stated === undefined || others.length === 0) return stamp;
  const isWithin = others.some(({ from, lengthMs }) => {
    const laterMs = ((from - stated.from + 1.5 * DAY_MS) % DAY_MS) - DAY_MS / 2;
    const longerMs = laterMs + lengthMs - stated.lengthMs;
    return (laterMs <= SLACK_MS && longerMs >= -SLACK_MS) || (laterMs >= -SLACK_MS && longerMs <= SLACK_MS);
  });
  return isWithin && stated.zone !== null ? { ...stamp, zone: stated.zone } : stamp;
}

/** The only offset in the stamps of a table; `null` if there are none, or several. */
function zoneOf({ stamp, fieldLines, timePaths }: Reading): string | null {
  if (stamp === null || !stamp.pattern.includes('{offset}')) return null;
  const pattern = new StampPattern(stamp.pattern);
  const offsets = new Set(
    fieldLines.flatMap(({ fields }) => {
      const bytes = Buffer.from(timePaths.flatMap((path) => fields.get(path) ?? []).join(' '));
      const found = newStamp();
      return pattern.readIn(stamp.at, bytes, 0, bytes.length, found) ? [found.offsetMinutes] : [];
    }),
  );
  const [minutes] = offsets;
  if (offsets.size !== 1 || minutes === undefined) return null;
  return minutes === 0 ? 'utc' : zoneAhead(minutes);
}
