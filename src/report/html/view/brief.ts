import { counted } from '../../../model/index.js';
import type { FindingView } from './findings.js';
import type { NightView } from './index.js';
import type { Row, Table } from './table.js';
import type { TonightView } from './tonight.js';

/** What the brief edition shows of the sections, cut to fit its pages. */
export interface BriefView {
  readonly harmed: Table | null;
  /** What was cut from the table above, in words; empty for nothing. */
  readonly harmedMore: string;
  readonly totals: Table | null;
  readonly totalsMore: string;
  readonly findings: readonly FindingView[];
  readonly findingsMore: string;
  /** What there is room for. */
  readonly has: Readonly<Record<'integration' | 'gains' | 'almanac' | 'pictures' | 'fields' | 'pairDithers', boolean>>;
  readonly tonight: TonightView;
  /** Whether small print is smaller than on any other page, for a night that does not fit otherwise. */
  readonly isTight: boolean;
}

interface Limits {
  readonly harmed: number;
  readonly totals: number;
  readonly findings: number;
  readonly actions: number;
  /** Bars of goals on the first page. */
  readonly goals: number;
}

/** Rows by level, loosest first. */
const LIMITS: readonly [Limits, ...Limits[]] = [
  { harmed: 8, totals: 16, findings: 5, actions: 3, goals: 9 },
  { harmed: 6, totals: 12, findings: 4, actions: 3, goals: 7 },
  { harmed: 4, totals: 8, findings: 3, actions: 3, goals: 5 },
  { harmed: 3, totals: 6, findings: 3, actions: 2, goals: 0 },
];

/** A row with only its first statement, and of that the head and the evidence. */
function shortRow(row: Row): Row {
  const cells = row.cells.map((cell) =>
    cell.statements === undefined
      ? cell
      : {
          ...cell,
          statements: cell.statements.slice(0, 1).map(({ head, details }) => ({ head, details: details.slice(0, 1) })),
        },
  );
  return { ...row, cells: cells.map(({ anchor: _, ...cell }) => cell) };
}

function cut(table: Table | null, limit: number): { readonly table: Table | null; readonly left: number } {
  if (table === null) return { table, left: 0 };
  // A line about one omitted row takes as much space as the row.
  const most = table.rows.length === limit + 1 ? limit + 1 : limit;
  return {
    table: { ...table, rows: table.rows.slice(0, most).map(shortRow) },
    left: Math.max(0, table.rows.length - most),
  };
}

const more = (left: number, what: string): string =>
  left === 0 ? '' : `${counted(left, `more ${what}`)}: on the page and in the full edition.`;

/** Whole targets, as many as there is space for their bars. */
function goalsWithin(goals: TonightView['goals'], most: number): TonightView['goals'] {
  let room = most;
  return goals.filter(({ bars }) => {
    room -= bars.length;
    return room >= 0;
  });
}

/** The part of a night's view for the brief edition. */
export function briefView(view: NightView, level: number): BriefView {
  const limits = LIMITS[Math.min(level, LIMITS.length - 1)] ?? LIMITS[0];
  const harmed = cut(view.harmed?.table ?? null, limits.harmed);
  const framesLeft = (view.harmed?.framesOfRows ?? [])
    .slice(harmed.table?.rows.length ?? 0)
    .reduce((sum, count) => sum + count, 0);
  const totals = cut(view.totals, limits.totals);
  const findings = [...view.findings.first, ...view.findings.rest];
  return {
    harmed: harmed.table,
    harmedMore: more(framesLeft, 'frame'),
    totals: totals.table,
    totalsMore: totals.left === 0 ? '' : `${more(totals.left, 'row')} The totals include them all.`,
    findings: findings.slice(0, limits.findings),
    findingsMore: more(Math.max(0, findings.length - limits.findings), 'finding'),
    tonight: {
      ...view.tonight,
      // If space is scarcest, findings have only their titles.
      actions: view.tonight.actions
        .slice(0, limits.actions)
        .map((action) => (level < 3 ? action : { ...action, title: '' })),
      further: level < 3 ? view.tonight.further : [],
      // The first page is read on its own. If space is scarce it is given once, with a finding that has it.
      caution:
        level < 4 || findings.slice(0, limits.findings).every(({ caution }) => caution === '')
          ? view.tonight.caution
          : undefined,
      goals: goalsWithin(view.tonight.goals, limits.goals),
    },
    isTight: level > 4,
    has: {
      integration: level < 3,
      gains: level < 2,
      almanac: level < 2,
      pictures: level < 4,
      fields: level < 2,
      pairDithers: level === 0 && view.pair !== null && view.pair.dithers !== null,
    },
  };
}
