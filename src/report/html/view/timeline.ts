import {
  ACCOUNTS,
  ACCOUNT_TABLE,
  counted,
  duration,
  idleTime,
  listed,
  type Account,
  type ActivityKind,
  type Night,
} from '../../../model/index.js';
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
  /** An area … */
  readonly style?: AreaStyle;
  /** … or a line, drawn by the key's template under this name. */
  readonly mark?: string;
}

export interface TimelinesView {
  readonly overview: TimelineView;
  readonly strips: readonly TimelineView[];
  /** Why there are none; empty if there are some. */
  readonly noStrips: string;
  readonly key: readonly KeyEntry[];
  readonly axes: string;
}

const STRIP_HOURS = 2;
/** With more frames than this, none have labels at any scale. */
const MOST_IN_STRIPS = 1200;
/** Marks with a shorter total are not in the key, ms. */
const SHOWN_MS = 60_000;

function description({ night, worth, clock }: ViewContext): string {
  const trains = worth.trains.map(
    ({ train, frames, waitingMs }) =>
      `${train} took ${counted(frames.taken, 'frame')}, ${frames.kept} kept, ${frames.doubtful} doubtful, ` +
      `${frames.lost} lost, and waited ${duration(waitingMs)}`,
  );
  const hours = `from ${clock.time(night.sky.window.startMs)} to ${clock.time(night.sky.window.endMs)}`;
  return (
    `Timeline of the night ${hours}: ${listed(trains)}. ` +
    `${counted(night.accounts.dithers.length, 'dither cycle')}. The tables below have all the figures.`
  );
}

/** The overview of the first screen, and the two-hour strips in which every frame is legible. */
export function timelinesView(context: ViewContext): TimelinesView {
  const { night, clock, palette, showsUtc } = context;
  const tooMany = night.accounts.lights.length > MOST_IN_STRIPS;
  const spans = tooMany ? [] : stripSpans(night, clock, STRIP_HOURS);
  const overview = buildTimeline(night, overviewSpan(night), OVERVIEW_SIZES, clock, palette, {
    label: description(context),
    showsUtc,
  });
  return {
    overview,
    strips: spans.map((span) =>
      buildTimeline(night, span, STRIP_SIZES, clock, palette, {
        label: `Timeline from ${clock.time(span.startMs)} to ${clock.time(span.endMs)}`,
        showsUtc,
      }),
    ),
    noStrips: tooMany
      ? 'Left out: this night has too many frames for a letter each; frames.csv has them all.'
      : spans.length === 0
        ? 'Nothing happened.'
        : '',
    key: keyOf(context, overview),
    axes: axesText(context),
  };
}

/** Explains the hours below a picture. */
export function axesText({ night, clock, showsUtc, isShared }: ViewContext): string {
  if (isShared) return 'Hours since the first exposure';
  const offsets = [...new Set([clock.offset(night.sky.window.startMs), clock.offset(night.sky.window.endMs)])];
  if (offsets.length === 1 && offsets[0] === 'UTC') return 'UTC, hours';
  const hours = `time, hours (${offsets.join(', then ')})`;
  return showsUtc ? `Above: local ${hours}; below: UTC` : `Local ${hours}`;
}

/** Marks of the shared lanes and the sky that are not areas, and their meaning. */
const LINES = {
  window: 'darkness begins, ends',
  moon: 'Moon’s altitude',
  target: 'target’s altitude while imaged, 0° to 90°',
  move: 'mount dithers',
  settle: 'mount settles',
  guiding: 'guiding',
  off: 'guiding off during a sub',
  tie: 'from ready to the mount’s move; heavy: ready last',
} as const;

/** Entries that the ledger distinguishes by position in the night are drawn alike. */
function keyLabel(account: Account, night: Night): string {
  const { label } = ACCOUNT_TABLE[account];
  if (account !== 'unexplained') return label;
  const idle = night.gathered.trains.flatMap(({ id }) => idleTime(night, id) ?? []);
  return idle.some(({ before, after }) => before + after >= SHOWN_MS) ? `unused or ${label}` : label;
}

/** A name for every mark in this night's timeline, and no other. */
function keyOf({ night, palette }: ViewContext, { shared }: TimelineView): KeyEntry[] {
  const { accounts, sky } = night;
  const filters = [...new Set(accounts.lights.map((frame) => frame.filter ?? ''))];
  const has = (verdict: 'doubtful' | 'lost'): boolean => accounts.lights.some((frame) => frame.verdict === verdict);
  const mountDid = (kind: ActivityKind): boolean => shared.mount.some((block) => block.kind === kind);
  const line = (mark: keyof typeof LINES, isThere: boolean): KeyEntry[] =>
    isThere ? [{ label: LINES[mark], mark }] : [];
  return [
    ...filters.map((name) => ({ label: palette.filter(name).label, style: solidArea(palette.filter(name).colour) })),
    ...(['doubtful', 'lost'] as const)
      .filter(has)
      .map((verdict) => ({ label: verdict, style: verdictArea('ink', verdict) })),
    ...ACCOUNTS.filter(
      (account) =>
        !ACCOUNT_TABLE[account].open && accounts.ledgers.some((ledger) => (ledger.totalsMs[account] ?? 0) >= SHOWN_MS),
    ).map((account) => ({ label: keyLabel(account, night), style: accountArea(account) })),
    ...line('tie', accounts.dithers.length > 0),
    ...line('move', mountDid('dither-move')),
    ...line('settle', mountDid('settling')),
    ...line(
      'guiding',
      shared.guiding.some((block) => !block.harm),
    ),
    ...line(
      'off',
      shared.guiding.some((block) => block.harm),
    ),
    ...line('target', sky.curves.length > 0),
    ...line(
      'moon',
      (sky.curves[0]?.points ?? []).some((p) => p.moonAltitudeDeg > 0),
    ),
    ...line('window', sky.almanac !== null),
  ];
}
