import { CLOCK } from './sheet-lines.js';

/** From when to when, as `19:58:40-19:58:42`, or from when and how long, as `23:10:03 + 4 s`. */
export const SPAN = new RegExp(
  `(${CLOCK.source})\\s*(?:(?:[-–—]|→|\\p{L}{1,4})\\s*(${CLOCK.source})|\\+\\s*(\\d{1,4})\\s*s\\b)`,
  'u',
);
/** Seconds of a day and of an hour. */
const DAY = 86_400;
const HOUR = 3600;

/** The ends of the span that a text states, and the text without it; `null` if it states none. */
export function spanIn(text: string): { readonly from: string; readonly until: string; readonly rest: string } | null {
  const [whole, from, until, seconds] = SPAN.exec(text) ?? [];
  if (whole === undefined || from === undefined) return null;
  const end = until ?? later(from, Number(seconds));
  return end === null ? null : { from, until: end, rest: text.replace(whole, ' ') };
}

/** A time of day so many seconds later, written alike; `null` if it states no seconds. */
function later(clock: string, seconds: number): string | null {
  const [, hour, mark = ':', minute, second] = /^(\d{1,2})([:.])(\d{2})[:.](\d{2})$/.exec(clock) ?? [];
  if (hour === undefined) return null;
  const at = (Number(hour) * HOUR + Number(minute) * 60 + Number(second) + seconds) % DAY;
  return [Math.floor(at / HOUR), Math.floor(at / 60) % 60, at % 60]
    .map((part) => `${part}`.padStart(2, '0'))
    .join(mark);
}
