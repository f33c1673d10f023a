/**
 * The night as its stages left it, within its record: what was gathered, the timeline, the sky and the stars, from
 * which accounts, worth, replay and findings are recomputed. Compressed, because most readers of a record never look
 * into it and an archive holds a thousand.
 */
import { gunzipSync } from 'node:zlib';
import { z } from 'zod';
import { formatPath, type Interval, type Night, type NightStars } from '../../model/index.js';
import { restoreSeries } from './columns.js';
import { spanSchema } from './common.js';
import { coarse, maybe, open, part } from './field.js';
import { gathered } from './gathered.js';
import { nightStars, sky } from './sky.js';
import { storedSeries } from './stored-series.js';
import { timeline } from './timeline.js';

/** The parts that a record keeps. */
export type KeptParts = Pick<Night, 'date' | 'span' | 'gathered' | 'timeline' | 'sky' | 'stars'>;

/** From noon to noon there are this many hours on each side of the middle of the activity; no site in it. */
const HALF_DAY_MS = 12 * 3_600_000;

/** Every stored field, with its class. */
export const KEPT = part<KeptParts>({
  date: open(z.string().regex(/^\d{4}-\d{2}-\d{2}$/)),
  span: coarse<Interval>(spanSchema, (_noons, { window }) => ({
    startMs: window.startMs - HALF_DAY_MS,
    endMs: window.startMs + HALF_DAY_MS,
  })),
  gathered,
  timeline,
  sky,
  stars: maybe<NightStars>(nightStars),
});

const BASE64 = /^[A-Za-z0-9+/]*={0,2}$/;

/** The storage of the parts in the record: JSON, gzipped, in base64. */
export const keptSchema = z
  .strictObject({ encoding: z.literal('gzip+base64'), data: z.string().regex(BASE64) })
  .describe('what the stages of the night gave, from which the report can be made again');
export type KeptText = z.infer<typeof keptSchema>;

/** A night of a hundred thousand samples and frames unpacks to less; more is a bomb. */
const MOST_BYTES = 128_000_000;

/** The parts, or why they cannot be read. */
export type Restored = { readonly ok: true; readonly parts: KeptParts } | { readonly ok: false; readonly why: string };

const envelope = z.looseObject({
  gathered: z.looseObject({ guiding: storedSeries.extend({ sources: z.array(z.unknown()) }).nullable() }),
});

/** Reads the parts of a record: untrusted. Never throws. */
export function restoreParts({ data }: KeptText): Restored {
  let parsed: unknown;
  try {
    parsed = JSON.parse(gunzipSync(Buffer.from(data, 'base64'), { maxOutputLength: MOST_BYTES }).toString('utf8'));
  } catch (error) {
    return { ok: false, why: `its parts cannot be unpacked (${error instanceof Error ? error.message : 'damaged'})` };
  }
  try {
    const { gathered: stored, ...others } = envelope.parse(parsed);
    const { guiding } = stored;
    const restored = guiding && { ...restoreSeries(guiding), sources: guiding.sources };
    const parts = KEPT.schema.parse({ ...others, gathered: { ...stored, guiding: restored } });
    const why = whatLeavesTheNight(parts);
    return why === null ? { ok: true, parts } : { ok: false, why };
  } catch (error) {
    if (error instanceof z.ZodError) {
      const [issue] = error.issues;
      return { ok: false, why: issue ? `its ${formatPath(issue.path)}: ${issue.message}` : 'its parts are damaged' };
    }
    return { ok: false, why: error instanceof Error ? error.message : String(error) };
  }
}

/** The noon before and the noon after may be off, because of a zone or a clock, ms. */
const LEEWAY_MS = 86_400_000;

/** What belongs to another night: a replay over such a range would take as long. `null` if all is well. */
function whatLeavesTheNight({ span, timeline, sky }: KeptParts): string | null {
  const isTonight = (one: Interval): boolean =>
    one.startMs >= span.startMs - LEEWAY_MS && one.endMs <= span.endMs + LEEWAY_MS;
  const places: readonly (readonly [string, readonly Interval[]])[] = [
    ['sky.window', [sky.window]],
    ['timeline.frames', timeline.frames.map((frame) => frame.exposure)],
    ['timeline.activities', timeline.activities.map((activity) => activity.span)],
  ];
  const stray = places.find(([, spans]) => !spans.every(isTonight));
  return stray === undefined ? null : `its ${stray[0]} contains data more than a day away from the night`;
}

export type { Redaction } from './field.js';
export { squareOf } from './gathered.js';
