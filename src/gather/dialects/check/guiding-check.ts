import type { GuidingSeries } from '../../../model/index.js';

/** Statistics of a log's guiding samples, to compare with what the observer knows. */
export interface GuidingCheck {
  readonly samples: number;
  /** Root mean square of the errors on the sky, both axes combined, about zero. */
  readonly rmsArcsec: number;
  /** Median step from sample to sample. */
  readonly cadenceSeconds: number;
  readonly startMs: number;
  readonly endMs: number;
}

/** Number, size and cadence of the guiding samples; `null` when there are none. */
export function guidingCheck({ atMs, raArcsec, decArcsec }: GuidingSeries): GuidingCheck | null {
  const startMs = atMs[0];
  const endMs = atMs[atMs.length - 1];
  if (startMs === undefined || endMs === undefined) return null;
  let squares = 0;
  for (let i = 0; i < atMs.length; i++) squares += (raArcsec[i] ?? 0) ** 2 + (decArcsec[i] ?? 0) ** 2;
  const steps = Float64Array.from({ length: atMs.length - 1 }, (_, i) => (atMs[i + 1] ?? 0) - (atMs[i] ?? 0)).sort();
  return {
    samples: atMs.length,
    rmsArcsec: Math.sqrt(squares / atMs.length),
    cadenceSeconds: (steps[Math.floor(steps.length / 2)] ?? 0) / 1000,
    startMs,
    endMs,
  };
}

/** Warnings about guiding that no real mount produces: errors of arcminutes, or no errors at all. */
export function guidingDoubts({ rmsArcsec, cadenceSeconds }: GuidingCheck): string[] {
  const doubts: string[] = [];
  if (rmsArcsec > 30) doubts.push(`The guiding errors are ${rmsArcsec.toFixed(0)}″ RMS: are they really arcseconds?`);
  if (rmsArcsec < 0.01) doubts.push('The guiding errors are close to zero: are "ra" and "dec" the right columns?');
  if (cadenceSeconds > 600)
    doubts.push(`The guiding samples are ${cadenceSeconds.toFixed(0)} s apart: is the time right?`);
  return doubts;
}
