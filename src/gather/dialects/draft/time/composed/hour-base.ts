import type { CountedLine } from '../base-choice.js';
import type { BaseLine } from '../base-lines.js';
import { instant } from '../night-evidence.js';

const HOUR_MS = 3_600_000;
/** A log begins within this time of the instant in its head. */
const SOON_MS = HOUR_MS / 2;

/**
 * The base of minutes and seconds that begin anew each hour: the hour of the instant that a line states, if the first
 * of them comes soon after its minutes, and not after none.
 */
export function ofItsHour(base: BaseLine, counts: readonly CountedLine[]): BaseLine {
  const { section, line, stamp } = base;
  if ('file' in section || section.sync === true || section.begin.includes('(?<elapsed>')) return base;
  const first = counts.find((one) => one.line > line.number);
  const at = instant(section.base, line.text.slice(stamp.start));
  if (first === undefined || Number.isNaN(at)) return base;
  const ofHour = at - Math.floor(at / HOUR_MS) * HOUR_MS;
  const away = (first.ms - ofHour + HOUR_MS) % HOUR_MS;
  const hour = /^.*?\{hour\}/.exec(section.base)?.[0];
  if (hour === undefined || !/\{day\}/.test(hour) || away > SOON_MS || first.ms < away) return base;
  return { ...base, section: { ...section, base: hour } };
}
