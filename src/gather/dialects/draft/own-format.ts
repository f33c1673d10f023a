import { isEventName } from '../../../model/index.js';

const LOOKED_AT = 50;
const SHARE = 0.8;

/** Which of nightledger's own formats the lines are in, in words; `null` when in none. */
export function ownFormat(lines: readonly string[]): 'event log' | 'guiding log' | null {
  const filled = lines.filter((line) => line.trim() !== '').slice(0, LOOKED_AT);
  const [first = ''] = filled;
  if (/^\ufeff?at,ra_arcsec,dec_arcsec(?:,|$)/.test(first.trim())) return 'guiding log';
  const own = filled.filter(isEventLine).length;
  return own > 0 && own >= SHARE * filled.length ? 'event log' : null;
}

function isEventLine(line: string): boolean {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return false;
  }
  if (typeof value !== 'object' || value === null || !('at' in value) || !('event' in value)) return false;
  const { at, event } = value;
  return typeof at === 'string' && /^\d{4}-\d{2}-\d{2}T/.test(at) && typeof event === 'string' && isEventName(event);
}
