import {
  duration,
  durationMs,
  isNeverDark,
  listed,
  percent,
  sum,
  TWILIGHTS,
  type Night,
} from '../../../model/index.js';
import { solidArea, type AreaStyle } from '../../design/area.js';
import { goalLinesOf, type GoalLine } from '../../figures/goals.js';
import { actionsOf, type Action, type Actions } from './actions.js';
import type { ViewContext } from './context.js';
import { together } from './headline.js';

/** What the night added to one filter of a target: its bar in per cent of the goal, or of the longest bar. */
export interface GoalBar {
  readonly label: string;
  readonly value: string;
  /** Start of the night's own part: the nights before it are drawn at half height. */
  readonly x: string;
  readonly width: string;
  readonly style: AreaStyle;
}

export interface TargetGoalsView {
  readonly target: string;
  /** What the bars count; empty if there is nothing to note. */
  readonly note: string;
  /** Goals of filters without any exposure yet. */
  readonly untouched: string;
  readonly bars: readonly GoalBar[];
}

export interface TonightView {
  readonly actions: readonly Action[];
  /** Further advice with a gain, to be named after them. */
  readonly further: readonly Action[];
  /** Caution for them, if one concerns moving equipment. */
  readonly caution: string | undefined;
  /** Why there is no action; empty when there is one. */
  readonly none: string;
  readonly goals: readonly TargetGoalsView[];
  /** What recoverable time is summed over; empty for one train. */
  readonly over: string;
}

const MOST_TARGETS = 4;

const keptInAll = ({ keptMs, earlierMs }: GoalLine): number => keptMs + earlierMs;

function nameOf({ filter, train }: GoalLine, { palette, night }: ViewContext): string {
  const of = train !== null && night.gathered.trains.length > 1 ? `, ${train}` : '';
  return `${filter === null ? 'all filters' : palette.filter(filter).label}${of}`;
}

function bar(line: GoalLine, longestMs: number, context: ViewContext): GoalBar {
  const { goalMs, keptMs, earlierMs } = line;
  const inAll = keptInAll(line);
  const whole = Math.max(goalMs ?? longestMs, 1);
  const share = (ms: number): number => Math.min(1, ms / whole);
  const reached = goalMs === null ? '' : ` of ${duration(goalMs)}, ${percent(goalMs === 0 ? null : inAll / goalMs)}`;
  return {
    label: `${nameOf(line, context)}${earlierMs > 0 ? `, +${duration(keptMs)}` : ''}`,
    value: `${duration(inAll)}${reached}`,
    x: `${(share(earlierMs) * 100).toFixed(2)}%`,
    width: `${((share(inAll) - share(earlierMs)) * 100).toFixed(2)}%`,
    style: solidArea(line.filter === null ? 'bar' : context.palette.filter(line.filter).colour),
  };
}

/** What the bars of a target count. */
function noteOf(own: readonly GoalLine[]): string {
  const nights = own.some(({ earlierMs }) => earlierMs > 0)
    ? 'this night and, at half height, earlier nights in the archive'
    : 'this night';
  return own.some(({ goalMs }) => goalMs !== null) ? `${nights}, of the goal` : nights;
}

function untouchedText(lines: readonly GoalLine[], context: ViewContext): string {
  if (lines.length === 0) return '';
  const wanted = lines.flatMap((line) =>
    line.goalMs === null ? [] : [`${nameOf(line, context)} ${duration(line.goalMs)}`],
  );
  return `Goals not begun: ${listed(wanted)}.`;
}

function goalsOf(context: ViewContext): TargetGoalsView[] {
  const lines = goalLinesOf(context.night, context.earlier);
  const longestMs = Math.max(0, ...lines.filter(({ goalMs }) => goalMs === null).map(keptInAll));
  return [...new Set(lines.map(({ target }) => target))].slice(0, MOST_TARGETS).map((target) => {
    const own = lines.filter((line) => line.target === target);
    const begun = own.filter((line) => line.isTaken || keptInAll(line) > 0);
    return {
      target: target === '' ? 'no target named' : target,
      note: noteOf(begun),
      untouched: untouchedText(
        own.filter((line) => !begun.includes(line)),
        context,
      ),
      bars: begun.map((line) => bar(line, longestMs, context)),
    };
  });
}

/**
 * What to do on the next night, and what this one added.
 *
 * @param anchors each finding's id on the page, in the findings' order
 */
export function tonightView(context: ViewContext, anchors: readonly string[]): TonightView {
  const { night } = context;
  const trains = night.gathered.trains.map(({ id }) => id);
  const { actions, further }: Actions = isNeverDark(night)
    ? { actions: [], further: [] }
    : actionsOf(night.findings.ranked, anchors, trains);
  return {
    actions,
    further,
    caution: actions.find(({ caution }) => caution !== undefined)?.caution,
    none: actions.length > 0 ? '' : noneOf(night),
    goals: goalsOf(context),
    over: trains.length > 1 ? `, ${together(night)}` : '',
  };
}

/** If little was kept, the absence of promised minutes is no praise. */
function noneOf(night: Night): string {
  if (night.accounts.lights.length === 0)
    return (
      'There is no light to judge. Either nothing was exposed, or “frames” in the rig file names another folder: ' +
      'the report’s Provenance lists what was read.'
    );
  if (isNeverDark(night) && (night.sky.almanac?.window.sunMinimumDeg ?? -90) > TWILIGHTS.civil.sunAltitudeDeg)
    return (
      'It never got dark enough for any frame, and no filter helps with the Sun so high: use such nights for ' +
      'darks and flats, and for work on the equipment.'
    );
  if (isNeverDark(night))
    return (
      'It never got dark enough for any frame: on such nights narrowband copes best with twilight. A brighter ' +
      '“darkness” in the rig file counts frames taken in it.'
    );
  const ms = (verdict: 'taken' | 'kept'): number =>
    night.accounts.totals.reduce((all, total) => all + total.ms[verdict], 0);
  if (ms('kept') < ms('taken') / 2)
    return 'Most of the exposure was not kept: first find out why the frames were doubtful or lost.';
  return night.findings.ranked.some(({ winMs, costMs }) => winMs !== 0 && costMs > 0)
    ? 'No change is sure to gain more than a few minutes. Findings lists what mishaps cost, and what may help.'
    : `${praise(night)}No finding would gain even a minute: nothing to change.`;
}

/** A night is good if each train kept this fraction, from its first exposure to its last (common practice). */
const GOOD_SHARE = 0.85;

/** A statement that a night was good, with its evidence; empty if it was not. */
function praise({ gathered: { trains }, accounts: { lights } }: Night): string {
  const shares = trains.map(({ id }): number => {
    const own = lights.filter(({ train }) => train === id);
    const fromMs = Math.min(...own.map(({ exposure }) => exposure.startMs));
    const untilMs = Math.max(...own.map(({ exposure }) => exposure.endMs));
    const keptMs = sum(own.filter(({ verdict }) => verdict === 'kept').map(({ exposure }) => durationMs(exposure)));
    return own.length === 0 ? 0 : keptMs / (untilMs - fromMs);
  });
  const least = Math.min(...shares);
  if (!(least >= GOOD_SHARE)) return '';
  const who = trains.length > 1 ? 'each train kept' : 'it kept';
  return `A good night: from first exposure to last ${who} ${percent(least)} of the time${
    trains.length > 1 ? ' or more' : ''
  }. `;
}
