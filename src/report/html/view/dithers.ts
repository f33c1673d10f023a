import { decimal, duration, durationMs, UNKNOWN, type DitherCycle, ownValue } from '../../../model/index.js';
import type { ViewContext } from './context.js';
import { column, figures, screenOnly, words, type Row, type Table } from './table.js';

export interface DithersView {
  readonly table: Table | null;
  readonly none: string;
}

function cycleRow(cycle: DitherCycle, index: number, { night, clock, utc, showsUtc }: ViewContext): Row {
  const settleMs = cycle.settle === undefined ? null : durationMs(cycle.settle);
  return {
    id: `dither-${index + 1}`,
    cells: [
      figures(String(index + 1), index + 1, { header: true }),
      figures(clock.seconds(cycle.beginMs), cycle.beginMs),
      ...(showsUtc ? [screenOnly(figures(utc.seconds(cycle.beginMs), cycle.beginMs))] : []),
      ...night.gathered.trains.map(({ id }) => {
        const wait = ownValue(cycle.waits, id);
        return wait ? figures(`${decimal(wait.waitMs / 1000, 1)}`, wait.waitMs) : figures(UNKNOWN);
      }),
      words(cycle.holder ?? UNKNOWN),
      figures(decimal(durationMs(cycle.move) / 1000, 1), durationMs(cycle.move)),
      figures(settleMs === null ? UNKNOWN : decimal(settleMs / 1000, 1), settleMs),
      screenOnly(words(cycle.certainty)),
    ],
  };
}

/** A night with more dithers lists those with the longest waits. */
const MOST_CYCLES = 400;

function longestWaitMs({ waits }: DitherCycle): number {
  return Math.max(0, ...Object.values(waits).map((wait) => wait?.waitMs ?? 0));
}

/** Every dither cycle: how long each train waited, and for whom. */
export function dithersView(context: ViewContext): DithersView {
  const { night } = context;
  if (night.accounts.dithers.length === 0) {
    return {
      table: null,
      none: night.timeline.headersOnly
        ? 'Without an event log no dither can be seen.'
        : 'No dither was logged on this night.',
    };
  }
  const cycles = night.accounts.dithers.map((cycle, index) => ({ cycle, index, waitMs: longestWaitMs(cycle) }));
  const listed = [...cycles]
    .sort((a, b) => b.waitMs - a.waitMs)
    .slice(0, MOST_CYCLES)
    .sort((a, b) => a.index - b.index);
  const waited = (id: string): number =>
    night.accounts.dithers.reduce((sum, cycle) => sum + (ownValue(cycle.waits, id)?.waitMs ?? 0), 0);
  const moved = night.accounts.dithers.reduce((sum, cycle) => sum + durationMs(cycle.move), 0);
  const settled = night.accounts.dithers.reduce(
    (sum, cycle) => sum + (cycle.settle === undefined ? 0 : durationMs(cycle.settle)),
    0,
  );
  return {
    none: '',
    table: {
      caption:
        'Dither cycles; waits, move and settling in ' +
        'seconds' +
        (listed.length < cycles.length ? `; the ${MOST_CYCLES} with the longest waits of ${cycles.length}` : ''),
      name: 'dithers',
      sortable: true,
      columns: [
        column('No.', 'figures'),
        column('Mount moved', 'figures'),
        ...(context.showsUtc ? [column('UTC', 'figures', 'screen')] : []),
        ...night.gathered.trains.map(({ id }) => column(`${id} waited`, 'figures')),
        column('Held by'),
        column('Move', 'figures'),
        column('Settling', 'figures'),
        column('Certainty', 'words', 'screen'),
      ],
      rows: listed.map(({ cycle, index }) => cycleRow(cycle, index, context)),
      foot: [
        {
          kind: 'total',
          cells: [
            words('all', { header: true }),
            words(''),
            ...(context.showsUtc ? [screenOnly(words(''))] : []),
            ...night.gathered.trains.map(({ id }) => figures(duration(waited(id)), waited(id))),
            words(''),
            figures(duration(moved), moved),
            figures(duration(settled), settled),
            screenOnly(words('')),
          ],
        },
      ],
    },
  };
}
