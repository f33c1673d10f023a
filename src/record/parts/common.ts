/** Fields common to several parts: numbers within what is physically possible, times, sources. */
import { z } from 'zod';
import type { Interval, Source, Warning } from '../../model/index.js';
import { coarse, open, optional, part } from './field.js';

/** From the first plates to the end of the calendar that dates are written in, UTC ms. */
const EARLIEST_MS = Date.UTC(1850, 0, 1);
const LATEST_MS = Date.UTC(9999, 11, 31);

export const text = z.string().max(10_000);
export const number = z.number();
export const count = z.number().int().min(0);
export const positive = z.number().min(0);
export const instantMs = z.number().min(EARLIEST_MS).max(LATEST_MS);
export const flag = z.boolean();
export const certainty = z.enum(['measured', 'inferred', 'assumed']);

/** From noon to noon is a day; an hour more when clocks are set back. Nothing in a night is longer, ms. */
const LONGEST_MS = 2 * 86_400_000;

/** A begin and an end in order. Calibration frames without a date are at 0. */
export const spanSchema = z
  .object({ startMs: z.number(), endMs: z.number() })
  .refine(({ startMs, endMs }) => startMs <= endMs && endMs <= LATEST_MS, 'must end after it begins')
  .refine(({ startMs, endMs }) => endMs - startMs <= LONGEST_MS, 'must not last longer than two days');

/** An instant, shared as the time since the night's first exposure. */
export const instant = coarse(instantMs, (atMs, how) => how.instant(atMs));

/** A span, shared as times since the night's first exposure. */
export const span = coarse<Interval>(spanSchema, ({ startMs, endMs }, how) => ({
  startMs: how.instant(startMs),
  endMs: how.instant(endMs),
}));

/** A file's path, shared as a generated name. */
export const file = coarse(text, (path, how) => how.file(path));

export const source = part<Source>({
  file,
  line: optional(open(count)),
  card: optional(open(text)),
});

export const warning = part<Warning>({
  code: open(text),
  // A sentence names files and quotes headers: its code says what kind it is.
  message: coarse(text, () => 'the details are left out of the shared edition'),
  source: optional(source),
  train: optional(open(text)),
  count: optional(open(count)),
});
