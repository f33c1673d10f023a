import type { Night } from '../../../model/index.js';
import { calibrationView, type CalibrationView } from './calibration.js';
import { chartViews, type ChartViews } from './charts.js';
import { viewContext } from './context.js';
import { dithersView, type DithersView } from './dithers.js';
import { effectiveView, type EffectiveView } from './effective.js';
import { findingsView, type FindingsView } from './findings.js';
import { framesTables, harmedTable, type TrainFrames } from './frames.js';
import { frontView, type FrontView } from './front.js';
import { guidingView, type GuidingView } from './guiding.js';
import { headlineText } from './headline.js';
import { ledgerView, type LedgerView } from './ledger.js';
import { notesView, type NotesView } from './notes.js';
import { provenanceView, type ProvenanceView } from './provenance.js';
import { replayView, type ReplayView } from './replay.js';
import type { Table } from './table.js';
import { timelinesView, type TimelinesView } from './timeline.js';
import { totalsTable } from './totals.js';

/** A section of the report as its contents list names it. */
export interface SectionHead {
  readonly id: string;
  readonly number: string;
  readonly title: string;
}

/** Everything the templates print: text, places and pictures, with nothing left to compute. */
export interface NightView {
  readonly front: FrontView;
  readonly summary: string;
  readonly timelines: TimelinesView;
  readonly sections: Readonly<Record<string, SectionHead>>;
  readonly contents: readonly SectionHead[];
  readonly ledger: LedgerView;
  readonly findings: FindingsView;
  readonly totals: Table | null;
  readonly effective: EffectiveView;
  readonly replay: ReplayView;
  readonly guiding: GuidingView;
  readonly dithers: DithersView;
  readonly harmed: Table | null;
  readonly frames: readonly TrainFrames[];
  readonly charts: ChartViews;
  readonly calibration: CalibrationView;
  readonly notes: NotesView;
  readonly provenance: ProvenanceView;
  readonly shared: boolean;
}

const SECTIONS: readonly (readonly [string, string])[] = [
  ['ledger', 'Ledger'],
  ['findings', 'Findings'],
  ['replay', 'The night replayed'],
  ['integration', 'Integration'],
  ['effective', 'Effective integration'],
  ['dithers', 'Dither cycles'],
  ['harmed', 'Lost and doubtful frames'],
  ['sky', 'Sky'],
  ['guiding', 'Guiding'],
  ['stars', 'Stars and focus'],
  ['strips', 'Two-hour strips'],
  ['calibration', 'Calibration coverage'],
  ['notes', 'Notes on the data'],
  ['provenance', 'Provenance'],
  ['frames', 'Every frame'],
];

export interface ViewOptions {
  readonly nowMs: number;
  readonly version: string;
  readonly share?: boolean;
  readonly displayZone?: string;
}

/** Builds the view of a night, section by section. */
export async function nightView(night: Night, options: ViewOptions): Promise<NightView> {
  const context = viewContext(night, options.displayZone, options.share);
  const contents = SECTIONS.map(([id, title], index): SectionHead => ({ id, title, number: String(index + 1) }));
  return {
    front: frontView(context),
    summary: headlineText(context),
    timelines: timelinesView(context),
    contents,
    sections: Object.fromEntries(contents.map((head) => [head.id, head])),
    ledger: ledgerView(context),
    findings: findingsView(context),
    totals: night.accounts.totals.length === 0 ? null : totalsTable(context),
    effective: effectiveView(context),
    replay: replayView(context),
    guiding: guidingView(context),
    dithers: dithersView(context),
    harmed: harmedTable(context),
    frames: framesTables(context),
    charts: await chartViews(context),
    calibration: calibrationView(context),
    notes: notesView(context),
    provenance: provenanceView(context, options.version, options.nowMs),
    shared: options.share ?? false,
  };
}
