import { ACTIVITIES, counted, decimal, durationMs, type InterruptionDrift } from '../../../model/index.js';
import type { ViewContext } from './context.js';
import { column, figures, words, type Table } from './table.js';

export interface GuidingView {
  readonly byTarget: Table | null;
  readonly drifts: Table | null;
  /** A definition of a frame's trail, and the longest of the night; empty without samples. */
  readonly smear: string;
}

/** Guiding beyond its charts: figures by target, how far the field moved unguided, trails. */
export function guidingView(context: ViewContext): GuidingView {
  return { byTarget: byTargetTable(context), drifts: driftsTable(context), smear: smearText(context) };
}

function byTargetTable({ night }: ViewContext): Table | null {
  const rows = night.accounts.guidingByTarget ?? [];
  if (rows.length === 0) return null;
  return {
    caption: 'Guiding by target and train, during exposures',
    name: 'guided',
    sortable: true,
    columns: [
      column('Target'),
      column('Train'),
      column('Samples', 'figures'),
      column('RA ″', 'figures'),
      column('Dec ″', 'figures'),
      column('Total ″', 'figures'),
      column('Total px', 'figures'),
      column('Peak ″', 'figures'),
    ],
    rows: rows.map((row) => ({
      cells: [
        words(row.target, { header: true }),
        words(row.train),
        figures(String(row.samples)),
        figures(decimal(row.raRmsArcsec, 2)),
        figures(decimal(row.decRmsArcsec, 2)),
        figures(decimal(row.totalRmsArcsec, 2)),
        figures(decimal(row.totalRmsPixels, 2)),
        figures(decimal(row.peakArcsec, 1)),
      ],
    })),
  };
}

function driftsTable({ night, clock }: ViewContext): Table | null {
  const drifts = (night.accounts.guidingDrifts ?? []).filter((d) => d.kind !== 'guiding-stopped');
  if (drifts.length === 0) return null;
  return {
    caption: 'How far the field moved while unguided: the first error afterwards against the last one before',
    name: 'drifts',
    columns: [
      column('From', 'figures'),
      column('What'),
      column('By'),
      column('Duration s', 'figures'),
      column('RA ″', 'figures'),
      column('Dec ″', 'figures'),
      column('Moved ″', 'figures'),
      column('Note'),
    ],
    rows: drifts.map((drift) => ({
      cells: [
        figures(clock.seconds(drift.span.startMs), drift.span.startMs),
        words(label(drift), { header: true }),
        words(drift.causedBy ?? ''),
        figures(decimal(durationMs(drift.span) / 1000, 0)),
        figures(decimal(drift.raArcsec, 1)),
        figures(decimal(drift.decArcsec, 1)),
        figures(decimal(drift.driftArcsec, 1)),
        words(drift.isWithinNoise ? 'within the guiding’s own noise' : ''),
      ],
    })),
  };
}

function label({ kind }: InterruptionDrift): string {
  return ACTIVITIES[kind].label;
}

function smearText({ night }: ViewContext): string {
  const trails = night.accounts.lights.flatMap((frame) => (frame.smear ? [{ frame, trail: frame.smear }] : []));
  if (trails.length === 0) return '';
  const drawn = trails.filter(({ trail }) => trail.trailArcsec > 0);
  const longest = drawn.reduce<(typeof drawn)[number] | null>(
    (best, one) => (best === null || one.trail.trailArcsec > best.trail.trailArcsec ? one : best),
    null,
  );
  if (longest === null)
    return `No frame shows a drift beyond the guiding’s own noise (${counted(trails.length, 'frame')} measured).`;
  const { trailArcsec, trailPixels, elongation } = longest.trail;
  const pixels = trailPixels === undefined ? '' : ` (${decimal(trailPixels, 1)} px)`;
  const shape =
    elongation === undefined || elongation < 0.01
      ? ''
      : `, enough to elongate a star of that frame’s size by ${decimal(elongation * 100, 0)} %`;
  return (
    `${drawn.length} of ${trails.length} frames show a drift beyond the guiding’s own noise; the longest trail ` +
    `is ${decimal(trailArcsec, 1)}″${pixels} in a frame of ${longest.frame.train}${shape}.`
  );
}
