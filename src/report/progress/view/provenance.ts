import { madeText } from '../../made.js';
import { counted, formatSource } from '../../../model/index.js';
import { sentence } from '../../text/sentence.js';
import type { ProgressContext } from '../context.js';

export interface ProgressNotes {
  readonly warnings: readonly {
    readonly message: string;
    readonly code: string;
    readonly source: string;
    readonly count: string;
  }[];
  readonly statements: readonly string[];
  readonly formulas: readonly { readonly name: string; readonly text: string }[];
  readonly made: string;
}

const FORMULAS: ProgressNotes['formulas'] = [
  {
    name: 'Kept',
    text:
      'exposure of the frames whose verdict is kept, summed over frames; a frame counts once, however ' +
      'many folders or records hold it.',
  },
  { name: 'Still needed', text: 'goal less kept, never below zero. Doubtful frames are shown and do not count.' },
  { name: 'Used', text: 'from the start of the first light to the end of the last, inside darkness.' },
  { name: 'Efficiency', text: 'kept integration ÷ (first light to last × number of trains).' },
  {
    name: 'Twin gain',
    text: 'kept integration of all trains ÷ kept integration of the better train; the ideal is the number of trains.',
  },
  {
    name: 'Dither wait',
    text: 'from a train’s own readiness to the mount’s move; the median over the dithers of a night.',
  },
  { name: 'Star size', text: 'from the headers, the median over the frames of a night that were not lost.' },
  { name: 'Curves', text: 'through the marks of a trend: the median of seven nights.' },
];

/** What to know, and how the figures are calculated. */
export function notesView({ progress, version, nowMs, share }: ProgressContext): ProgressNotes {
  const headersOnly = progress.nights.filter((n) => n.headersOnly).length;
  return {
    warnings: progress.notices.map(({ message, code, source, count }) => ({
      message: sentence(message),
      code,
      source: source && !share ? formatSource(source) : '',
      count: count !== undefined && count > 1 ? String(count) : '',
    })),
    statements: [
      `${counted(progress.nights.length, 'night record')} ` +
        'read.' +
        (headersOnly > 0
          ? ` Of ${counted(headersOnly, 'night')} only the frames remain: what happened between exposures is ` +
            'inferred from the gaps.'
          : ''),
    ],
    formulas: FORMULAS,
    made: madeText(version, nowMs),
  };
}
