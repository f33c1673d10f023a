import {
  CAUTION,
  decimal,
  DITHER_PLACES,
  duration,
  groupBy,
  isReplayed,
  lackingPlaces,
  LIMITS_SENTENCE,
  listed,
  signedDuration,
  UNKNOWN,
  type Replay,
  type ReplayOutcome,
  type WhatIf,
  type WhatIfGroup,
  ownValue,
} from '../../../model/index.js';
import { gainRange } from '../../text/gain.js';
import type { ViewContext } from './context.js';
import { column, figures, groupsOver, screenOnly, words, type Row, type Table } from './table.js';

export interface ReplayView {
  /** Why there is nothing to show; empty when there is. */
  readonly missing: string;
  /** How reliable the replay of the night is. */
  readonly trust: string;
  readonly best: {
    readonly title: string;
    readonly gain: string;
    readonly settings: string;
    readonly caution: string;
  } | null;
  readonly none: string;
  readonly whatIfs: Table | null;
  readonly notes: readonly string[];
  readonly rules: readonly string[];
}

const GROUPS: Readonly<Record<WhatIfGroup, string>> = {
  'companion-exposure': 'Exposures in step',
  focus: 'Refocus',
  refocus: 'Refocuses left out',
  pause: 'From one exposure to the next',
  idle: 'Idle for no known reason',
  'filter-row': 'Filters in rows',
  guiding: 'Guiding',
  'start-offset': 'Start',
  'dither-lead': 'Which train leads the dither',
  'dither-waits': 'Waiting for shutters',
  'sub-length': 'Other sub lengths',
  'dither-every': 'Frames between two dithers',
  own: 'Your own',
  best: 'Best together',
};
/** The order in which the groups are shown. */
const ORDER: readonly WhatIfGroup[] = [
  'dither-waits',
  'companion-exposure',
  'focus',
  'refocus',
  'pause',
  'idle',
  'filter-row',
  'guiding',
  'start-offset',
  'dither-lead',
  'sub-length',
  'dither-every',
];

const EMPTY: ReplayView = { missing: '', trust: '', best: null, none: '', whatIfs: null, notes: [], rules: [] };

function outcomeCells({ trains, dithers }: ReplayOutcome, ids: readonly string[]) {
  return [
    ...ids.flatMap((id) => {
      const tally = ownValue(trains, id);
      if (!tally) return [figures(UNKNOWN), screenOnly(figures(UNKNOWN)), screenOnly(figures(UNKNOWN))];
      return [
        figures(duration(tally.keptMs), tally.keptMs),
        screenOnly(figures(decimal(tally.lostOrDoubtfulFrames, 1), tally.lostOrDoubtfulFrames)),
        screenOnly(figures(duration(tally.waitedMs), tally.waitedMs)),
      ];
    }),
    screenOnly(figures(decimal(dithers, 0), dithers)),
  ];
}

function row(whatIf: WhatIf, ids: readonly string[]): Row {
  const { title, gain, outcome } = whatIf;
  return {
    id: `replay-${whatIf.id}`,
    cells: [
      words(title, { header: true, lines: remarks(whatIf) }),
      figures(signedDuration(gain.meanMs), gain.meanMs, gain.highMs < 0 ? { className: 'v-missing' } : {}),
      figures(gainRange(gain), gain.meanMs),
      ...outcomeCells(outcome, ids),
    ],
  };
}

/** What prevents a rule from being advised, or what it requires. */
function remarks({ outside, newDarks, handsOn }: WhatIf): string[] {
  return [
    ...(outside.length > 0 ? [`outside the limits: ${outside.join('; ')}`] : []),
    ...(newDarks.length > 0 ? [`needs new darks: ${listed(newDarks)}`] : []),
    ...(handsOn ? ['needs other hardware'] : []),
  ];
}

/** What the night's own rules lack: a rule that leaves at least as many is no worse. */
function placesOfTheNight({ places }: ReplayOutcome): string[] {
  const short = places.filter((own) => Math.round(own.places) < DITHER_PLACES);
  return short.length === 0 ? [] : [`leaves ${lackingPlaces(short)}`];
}

function whatIfTable({ whatIfs, baseline, runs }: Replay): Table {
  const ids = Object.keys(baseline.trains);
  const groups = groupBy(whatIfs, (w) => w.group);
  const asItWas: Row = {
    cells: [
      words('As it was, mean of the runs', { header: true, lines: placesOfTheNight(baseline) }),
      figures('0 min', 0),
      figures(''),
      ...outcomeCells(baseline, ids),
    ],
  };
  const over = ids.length > 1 ? ' over all trains together' : '';
  const columns = [
    column('Rule'),
    column('mean', 'figures'),
    column('10 to 90 %', 'figures'),
    ...ids.flatMap(() => [
      column('kept', 'figures'),
      column('lost or doubtful', 'figures', 'screen'),
      column('waited', 'figures', 'screen'),
    ]),
    column('dithers', 'figures', 'screen'),
  ];
  return {
    caption: `What other rules would have kept: means of ${runs} runs, gain${over}`,
    name: 'replay',
    groups: groupsOver(columns, [
      { label: '', span: 1 },
      { label: 'gain', span: 2 },
      ...ids.map((label) => ({ label, span: 3 })),
      { label: '', span: 1 },
    ]),
    columns,
    rows: [],
    bodies: [
      { head: 'The night’s own rules', rows: [asItWas] },
      ...ORDER.flatMap((group) => {
        const own = groups.get(group);
        return own ? [{ head: GROUPS[group], rows: own.map((w) => row(w, ids)) }] : [];
      }),
    ],
  };
}

function trustSentence({ exact, actualKeptMs, errorShare, errorShares, confidence, doubts }: Replay): string {
  const kept = Object.values(actualKeptMs).reduce((sum, ms) => sum + ms, 0);
  const each = Object.entries(errorShares).flatMap(([id, share]) =>
    share === null ? [] : [`${id} ${decimal(Math.abs(share) * 100, 1)} %`],
  );
  const error =
    errorShare === null
      ? 'Nothing was kept, so the replay cannot be checked.'
      : `Run by the night’s own rules the replay keeps ${duration(exact.keptMs)}; the night kept ` +
        `${duration(kept)}: an error of ${decimal(Math.abs(errorShare) * 100, 1)} ` +
        `%${each.length > 1 ? ` (${listed(each)})` : ''}.`;
  return `${error} Confidence: ${confidence}${doubts.length === 0 ? '' : `, because ${listed(doubts)}`}.`;
}

/** Gains of less are chance, ms. */
const NOTICED_MS = 60_000;

/** ` (+28 to +39 min)`; empty if all runs gain the same. */
function rangeOf({ gain }: WhatIf): string {
  const range = gainRange(gain);
  return range === signedDuration(gain.meanMs) ? '' : ` (${range})`;
}

/** A gain smaller than the replay's own error, or of an unreliable replay, is marked as such. */
function withinError({ gain }: WhatIf, { exact, actualKeptMs, confidence }: Replay): string {
  const kept = Object.values(actualKeptMs).reduce((sum, ms) => sum + ms, 0);
  if (gain.meanMs < Math.abs(exact.keptMs - kept)) return ', less than the error of the replay itself';
  return confidence === 'low' ? ', too uncertain to promise at this confidence' : '';
}

/** Remedies of single faults enter no combination: the one that wins most is named beside it. */
function noneSentence({ whatIfs }: Replay): string {
  const [remedy] = whatIfs
    .filter(({ outside, gain }) => outside.length === 0 && gain.lowMs >= NOTICED_MS)
    .sort((a, b) => b.gain.meanMs - a.gain.meanMs);
  const none = 'Within the limits given in docs/replay.md, no combination of these rules is sure to gain a minute';
  return remedy
    ? `${none}; the remedy of one fault is, ${signedDuration(remedy.gain.meanMs)}: ${remedy.title}.`
    : `${none}.`;
}

/** The night under other rules: what each would have kept, and the best combination. */
export function replayView({ night }: ViewContext): ReplayView {
  const { replay } = night;
  if (!isReplayed(replay))
    return {
      ...EMPTY,
      missing:
        replay === null ? 'The night was not replayed.' : `The night cannot be replayed: it lacks ${replay.missing}.`,
    };
  const { best } = replay;
  // If nothing was kept, rules cannot be compared by what they keep.
  if (replay.errorShare === null) return { ...EMPTY, trust: trustSentence(replay) };
  const against = best === null ? [] : remarks(best);
  return {
    ...EMPTY,
    trust: trustSentence(replay),
    best: best && {
      title: `${best.title}${against.length > 0 ? ` (${against.join('; ')})` : ''}`,
      gain: `${signedDuration(best.gain.meanMs)}${rangeOf(best)}${withinError(best, replay)}`,
      settings: best.settings.map((s) => `--set ${s}`).join(' '),
      caution: best.handsOn ? CAUTION : '',
    },
    none: best ? '' : noneSentence(replay),
    whatIfs: whatIfTable(replay),
    notes: [
      ...new Set(replay.whatIfs.flatMap((w) => (w.note === undefined ? [] : [`${GROUPS[w.group]}: ${w.note}`]))),
      ...(replay.whatIfs.some(({ outside }) => outside.length > 0) ? [LIMITS_SENTENCE] : []),
    ],
    rules: replay.rules.map(({ name, value, certainty }) => `${name}: ${value} (${certainty}).`),
  };
}
