/** Guiding samples as the record keeps them. */
import { z } from 'zod';
import type { Source } from '../../model/index.js';

const decimals = z.object({ decimals: z.number().int().min(0).max(6), steps: z.array(z.number().int()) });
const raw = z.object({ float64: z.base64() });
const empty = z.object({ unknown: z.number().int().min(0).max(10_000_000) });
const column = z.union([decimals, raw, empty]);

/** A column as it is written. */
export type Column = z.infer<typeof column>;

/** A guiding series as it is written. */
export const storedSeries = z.object({ atMs: column, raArcsec: column, decArcsec: column, snr: column });
export type StoredColumns = z.infer<typeof storedSeries>;
export type StoredSeries = StoredColumns & { readonly sources: readonly Source[] };
