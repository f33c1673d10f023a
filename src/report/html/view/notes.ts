import {
  clockDifference,
  counted,
  decimal,
  formatSource,
  listed,
  warningsOf,
  whole,
  UNKNOWN,
  type ClockNote,
  type Warning,
} from '../../../model/index.js';
import { sentence } from '../../text/sentence.js';
import type { ViewContext } from './context.js';
import { column, figures, words, type Table } from './table.js';

export interface NotesView {
  readonly warnings: readonly {
    readonly code: string;
    readonly message: string;
    readonly source: string;
    readonly count: string;
  }[];
  readonly clocks: Table | null;
  readonly statements: readonly string[];
}

function warningView(warning: Warning, trains: readonly string[]): NotesView['warnings'][number] {
  const count = warning.count ?? 1;
  return {
    code: warning.code,
    message: sentence(warning.message, trains),
    source: warning.source === undefined ? '' : formatSource(warning.source),
    count: count > 1 ? `${count} times` : '',
  };
}

function provenanceStatements({ night }: ViewContext): string[] {
  const of = (provenance: string): number =>
    night.accounts.lights.filter((frame) => frame.provenance === provenance).length;
  const [both, file, log] = [of('log-and-file'), of('file-only'), of('log-only')];
  const out = [
    `${counted(night.accounts.lights.length, 'light')}: ` +
      `${listed([`${whole(both)} in log and on disk`, `${whole(file)} only on disk`, `${whole(log)} only in a log`])}.`,
  ];
  const readings = night.timeline.coolers.flatMap(({ setpointC, temperatureC }) =>
    setpointC === undefined || temperatureC === undefined ? [] : [Math.abs(temperatureC - setpointC)],
  );
  if (readings.length > 0) {
    const worst = Math.max(...readings);
    out.push(
      `${counted(readings.length, 'cooler reading')}; the largest deviation from the set point is ` +
        `${decimal(worst, 1)} °C.`,
    );
  }
  return out;
}

/** How a clock drifts, if it does. */
function driftIn({ drift }: ClockNote): string {
  return drift ? `; ${decimal(drift.perHourMs / 1000, 2)} s more per hour` : '';
}

/** What the reader must know about the data: warnings, clocks, and frames known from one source only. */
export function notesView(context: ViewContext): NotesView {
  const { night } = context;
  const trains = night.gathered.trains.map(({ id }) => id);
  return {
    warnings: warningsOf(night).map((warning) => warningView(warning, trains)),
    statements: provenanceStatements(context),
    clocks:
      night.timeline.clocks.length === 0
        ? null
        : {
            caption: 'Clocks compared; positive: ahead of the time used in this report',
            name: 'clocks',
            columns: [
              column('Train'),
              column('Clock in its'),
              column('Against'),
              column('Ahead', 'figures'),
              column('Uncertainty', 'figures'),
              column('By'),
              column('Corrected'),
            ],
            rows: night.timeline.clocks.map((clock) => ({
              cells: [
                words(clock.train, { header: true }),
                words(clock.source),
                words(clock.against),
                clock.isKnown ? figures(signed(clock.aheadMs), clock.aheadMs) : figures(UNKNOWN),
                clock.isKnown ? figures(clockDifference(clock.uncertaintyMs), clock.uncertaintyMs) : figures(UNKNOWN),
                words(`${clock.by}${driftIn(clock)}${stepIn(clock)}`),
                words(clock.corrected ? 'yes' : clock.isKnown ? 'no need' : 'not known'),
              ],
            })),
          },
  };
}

function signed(aheadMs: number): string {
  const size = clockDifference(aheadMs);
  return aheadMs < 0 && size !== clockDifference(0) ? `−${size}` : size;
}

function stepIn({ step }: ClockNote): string {
  return step === undefined
    ? ''
    : `; set ${step.byMs < 0 ? 'back' : 'forward'} by ${clockDifference(step.byMs)} in the night, which was corrected`;
}
