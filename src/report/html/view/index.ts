import type { Night } from '../../../model/index.js';
import type { Earlier } from '../../figures/goals.js';
import { calibrationView, type CalibrationView } from './calibration.js';
import { chartViews, type ChartViews } from './charts.js';
import { viewContext } from './context.js';
import { dithersView, type DithersView } from './dithers.js';
import { effectiveView, type EffectiveView } from './effective/index.js';
import { findingsView, type FindingsView } from './findings.js';
import { framesTables, type TrainFrames } from './frames.js';
import { frontView, type FrontView } from './front.js';
import { guidingView, type GuidingView } from './guiding.js';
import { harmedFold, harmedTable, unharmedText, type Harmed, type HarmedFold } from './harmed.js';
import { headlineText } from './headline.js';
import { ledgerView, type LedgerView } from './ledger.js';
import { notesView, type NotesView } from './notes.js';
import { picturesView, type PicturesView } from './pictures.js';
import { provenanceView, type ProvenanceView } from './provenance.js';
import { APPENDIX, numbered, SECTIONS, type SectionHead } from './sections.js';
import { pairView, type PairView } from './pair/index.js';
import { replayView, type ReplayView } from './replay.js';
import type { Table } from './table.js';
import { tonightView, type TonightView } from './tonight.js';
import { glossaryOf, type GlossaryEntry } from './glossary.js';
import { starsView, type StarsView } from './stars.js';
import { timelinesView, type TimelinesView } from './timeline.js';
import { mosaicTexts } from './mosaics.js';
import { totalsTable } from './totals.js';

export type { SectionHead } from './sections.js';

/** Everything the templates print: text, positions and pictures, with nothing left to compute. */
export interface NightView {
  readonly front: FrontView;
  readonly summary: string;
  readonly timelines: TimelinesView;
  readonly sections: Readonly<Record<string, SectionHead>>;
  readonly contents: readonly SectionHead[];
  readonly appendix: readonly SectionHead[];
  readonly tonight: TonightView;
  readonly ledger: LedgerView;
  readonly findings: FindingsView;
  readonly totals: Table | null;
  /** How evenly the panels of each mosaic were imaged. */
  readonly mosaics: readonly string[];
  readonly effective: EffectiveView;
  readonly replay: ReplayView;
  readonly stars: StarsView;
  readonly pictures: PicturesView;
  readonly guiding: GuidingView;
  /** `null` if no frames could be registered. */
  readonly pair: PairView | null;
  readonly dithers: DithersView;
  readonly harmed: Harmed | null;
  /** The same for the screen; `null` if no frame was harmed. */
  readonly harmedFold: HarmedFold | null;
  readonly unharmed: string;
  readonly frames: readonly TrainFrames[];
  readonly charts: ChartViews;
  /** Why neither target nor Moon is drawn, once for all sky charts; empty if one is. */
  readonly noSky: string;
  readonly calibration: CalibrationView;
  readonly notes: NotesView;
  readonly provenance: ProvenanceView;
  readonly glossary: readonly GlossaryEntry[];
  readonly shared: boolean;
}

export interface ViewOptions {
  readonly nowMs: number;
  readonly version: string;
  readonly share?: boolean;
  /** Show UTC beside local time. */
  readonly utc?: boolean;
  /** Draw the charts for paper as well: the full edition will be printed. */
  readonly forPaper?: boolean;
  /** What the night's archive says: its goals then count the nights before. */
  readonly earlier?: Earlier;
  /** Called after memory-intensive steps, so that garbage can be collected. */
  readonly onStage?: () => void;
}

function noSkyText({ altitude, separation }: ChartViews): string {
  const why = altitude?.missing;
  return why && why === separation?.missing ? `Altitudes and distances are not drawn: ${why}.` : '';
}

/** Builds the view of a night, section by section. */
export async function nightView(night: Night, options: ViewOptions): Promise<NightView> {
  const context = viewContext(night, options);
  const charts = await chartViews(context);
  options.onStage?.();
  const pair = pairView(context);
  const { contents, appendix } = numbered(
    SECTIONS.filter(([id]) => id !== 'pair' || pair !== null),
    APPENDIX,
  );
  const findings = findingsView(context);
  const harmed = harmedTable(context);
  return {
    front: frontView(context),
    summary: headlineText(context),
    timelines: timelinesView(context),
    contents,
    appendix,
    sections: Object.fromEntries([...contents, ...appendix].map((head) => [head.id, head])),
    tonight: tonightView(
      context,
      [...findings.first, ...findings.rest].map(({ id }) => id),
    ),
    ledger: ledgerView(context),
    findings,
    totals: night.accounts.totals.length === 0 ? null : totalsTable(context),
    mosaics: mosaicTexts(context),
    effective: effectiveView(context),
    replay: replayView(context),
    stars: starsView(context),
    pictures: picturesView(context),
    guiding: guidingView(context),
    pair,
    dithers: dithersView(context),
    harmed,
    harmedFold: harmed && harmedFold(harmed),
    unharmed: unharmedText(context),
    frames: framesTables(context),
    charts,
    noSky: noSkyText(charts),
    calibration: calibrationView(context),
    notes: notesView(context),
    provenance: provenanceView(context, options.version, options.nowMs),
    glossary: glossaryOf(night.gathered.trains.length),
    shared: options.share ?? false,
  };
}
