import { ACCOUNT_TABLE, counted, duration, listed } from '../../../model/index.js';
import { accountArea, solidArea, verdictArea, type AreaStyle } from '../../design/area.js';
import {
  buildTimeline,
  OVERVIEW_SIZES,
  overviewSpan,
  STRIP_SIZES,
  stripSpans,
  type TimelineView,
} from '../../timeline/timeline.js';
import type { ViewContext } from './context.js';

export interface KeyEntry {
  readonly label: string;
  readonly style: AreaStyle;
}

export interface TimelinesView {
  readonly overview: TimelineView;
  readonly strips: readonly TimelineView[];
  readonly key: readonly KeyEntry[];
  readonly axes: string;
}

const STRIP_HOURS = 2;
/** Accounts that the lanes show beside exposures and dither waits; named where the night has enough of them to be seen. */
const KEYED_ACCOUNTS = ['pointing', 'focus', 'hold', 'unexplained'] as const;
const SHOWN_MS = 60_000;

function description({ night, worth, clock }: ViewContext): string {
  const trains = worth.trains.map(
    ({ train, frames, waitingMs }) =>
      `${train} took ${counted(frames.taken, 'frame')}, ${frames.kept} kept, ${frames.doubtful} doubtful, ${frames.lost} lost, and waited ${duration(waitingMs)}`,
  );
  const hours = `from ${clock.time(night.sky.window.startMs)} to ${clock.time(night.sky.window.endMs)}`;
  return `Timeline of the night ${hours}: ${listed(trains)}. ${counted(night.accounts.dithers.length, 'dither cycle')}. All of it stands in the tables below.`;
}

/** The overview of the first screen, and the strips of two hours in which every frame is legible. */
export function timelinesView(context: ViewContext): TimelinesView {
  const { night, clock, palette } = context;
  const names = [...new Set(night.accounts.lights.map((frame) => frame.filter ?? ''))];
  const offsets = [...new Set([clock.offset(night.sky.window.startMs), clock.offset(night.sky.window.endMs)])];
  return {
    overview: buildTimeline(night, overviewSpan(night), OVERVIEW_SIZES, clock, palette, description(context)),
    strips: stripSpans(night, clock, STRIP_HOURS).map((span) => {
      const label = `Timeline from ${clock.time(span.startMs)} to ${clock.time(span.endMs)}`;
      return buildTimeline(night, span, STRIP_SIZES, clock, palette, label);
    }),
    key: [
      ...names.map((name) => ({ label: palette.filter(name).label, style: solidArea(palette.filter(name).colour) })),
      { label: 'doubtful', style: verdictArea('ink', 'doubtful') },
      { label: 'lost', style: verdictArea('ink', 'lost') },
      ...KEYED_ACCOUNTS.filter((account) =>
        night.accounts.ledgers.some((ledger) => ledger.totalsMs[account] >= SHOWN_MS),
      ).map((account) => ({ label: ACCOUNT_TABLE[account].label, style: accountArea(account) })),
    ],
    axes:
      offsets.length === 1 && offsets[0] === 'UTC'
        ? 'Hours in UTC'
        : `Local hours (${offsets.join(', then ')}) above, UTC below`,
  };
}
