import { duration, groupBy, listed, percent, sum, type Finding } from '../../../model/index.js';
import { solidArea, type AreaStyle } from '../../design/area.js';
import { goalLinesOf, type GoalLine } from '../../figures/goals.js';
import { winText } from '../../figures/win-text.js';
import type { ViewContext } from './context.js';
import { together } from './headline.js';

/** Something to do differently, and what it wins; empty where that is no time. */
export interface Action {
  readonly what: string;
  readonly win: string;
  readonly title: string;
  readonly anchor: string;
  readonly needsDarks: boolean;
}

/** What the night added to one filter of a target: its bar in per cent of the goal, or of the longest bar. */
export interface GoalBar {
  readonly label: string;
  readonly value: string;
  /** Where the night's own part begins: the nights before it are drawn half as high. */
  readonly x: string;
  readonly width: string;
  readonly style: AreaStyle;
}

export interface TargetGoalsView {
  readonly target: string;
  /** What the bars count; empty where there is nothing to say. */
  readonly note: string;
  /** Goals of filters that nobody has begun. */
  readonly untouched: string;
  readonly bars: readonly GoalBar[];
}

export interface TonightView {
  readonly actions: readonly Action[];
  /** Why there is no action; empty when there is one. */
  readonly none: string;
  readonly goals: readonly TargetGoalsView[];
  /** What recoverable time is summed over; empty for one train. */
  readonly over: string;
}

const MOST_ACTIONS = 3;
const MOST_TARGETS = 4;
/** Less is not worth a change of habits, ms. */
const LEAST_MS = 180_000;
/** Findings whose advice is for the desk, not for the next night. */
const AT_THE_DESK: ReadonlySet<string> = new Set(['marginal-frames']);
/** Findings whose advice is another length of the subs: darks of that length have to be taken first. */
const NEEDS_DARKS: ReadonlySet<string> = new Set(['unequal-exposures', 'sub-length']);

/** The advice's first sentence; what follows stands with the finding. */
function firstSentence(advice: string): string {
  return /^.+?[.!](?=\s+[A-Z“]|$)/s.exec(advice)?.[0] ?? advice;
}

/** Stands for the train in a sentence about one. */
const TRAIN = '\u0000';

/** A sentence without the trains that it names in one place; as it is where it names none, or some in two places. */
function withoutTrains(what: string, trains: readonly string[]): { text: string; named: readonly string[] } {
  const one = `(?:${trains.map((id) => id.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&')).join('|')})`;
  const list = new RegExp(`(?<![\\p{L}\\p{N}])${one}(?:(?:, | and )${one})*(?![\\p{L}\\p{N}]|’s)`, 'gu');
  const found = trains.length === 0 ? [] : [...what.matchAll(list)];
  const [only] = found;
  return only === undefined || found.length > 1
    ? { text: what, named: [] }
    : { text: what.replace(only[0], TRAIN), named: only[0].split(/, | and /) };
}

/** `Refocus heron and wren when their stars have grown by 10 %.` */
function saidOnce(alike: readonly Action[], first: Action, trains: readonly string[]): string {
  const { text, named: own } = withoutTrains(first.what, trains);
  const all = new Set(alike.flatMap(({ what }) => withoutTrains(what, trains).named));
  const named = text.replace(TRAIN, listed(trains.filter((id) => all.has(id))));
  return all.size > 1 && own.length === 1 ? named.replace(/\bits\b/, 'their') : named;
}

/** New darks are worth their trouble where they win so many times what needs none. Common practice, no source. */
const DARKS_WORTH = 2;

interface Ranked extends Action {
  readonly costMs: number;
  readonly winMs: number;
  readonly isFirst: boolean;
}

/**
 * At most three actions: what comes before all minutes, then what wins something, the most first; new darks count for
 * half of what they win.
 */
function actionsOf(ranked: readonly Finding[], anchors: readonly string[], trains: readonly string[]): Action[] {
  const all = ranked.flatMap((finding, index): Ranked[] => {
    const { winMs = 0 } = finding;
    return finding.isFirst !== true && (winMs < LEAST_MS || AT_THE_DESK.has(finding.id))
      ? []
      : [
          {
            what: firstSentence(finding.advice),
            winMs,
            isFirst: finding.isFirst === true,
            costMs: finding.costMs,
            win: winText(finding),
            title: finding.title,
            anchor: `finding-${anchors[index] ?? finding.id}`,
            needsDarks: NEEDS_DARKS.has(finding.id) || (finding.newDarks ?? []).length > 0,
          },
        ];
  });
  // What two findings advise alike is done once, for one train or for several.
  const once = [...groupBy(all, (one) => withoutTrains(one.what, trains).text).values()].flatMap((alike) => {
    const [first] = alike;
    const winMs = sum(alike.map((one) => one.winMs));
    const costMs = sum(alike.map((one) => one.costMs));
    return first ? [{ ...first, what: saidOnce(alike, first, trains), winMs, win: winText({ costMs, winMs }) }] : [];
  });
  const worth = ({ winMs, needsDarks }: (typeof once)[number]): number => (needsDarks ? winMs / DARKS_WORTH : winMs);
  const sorted = once.sort(
    (a, b) =>
      Number(b.isFirst) - Number(a.isFirst) || worth(b) - worth(a) || Number(a.needsDarks) - Number(b.needsDarks),
  );
  // Two that change the lengths of subs would contradict each other: the better one is for tonight.
  const first = sorted.find((one) => one.needsDarks);
  return sorted.filter((one) => !one.needsDarks || one === first).slice(0, MOST_ACTIONS);
}

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
    ? 'this night and, half as high, those before it in the archive'
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
  const actions = actionsOf(
    context.night.findings.ranked,
    anchors,
    context.night.gathered.trains.map(({ id }) => id),
  );
  return {
    actions,
    none: actions.length > 0 ? '' : noneOf(context),
    goals: goalsOf(context),
    over: context.night.gathered.trains.length > 1 ? `, ${together(context.night)}` : '',
  };
}

/** Where little was kept, that no minute is promised is no praise. */
function noneOf({ night: { accounts, sky } }: ViewContext): string {
  const window = sky.almanac?.window;
  if (
    window !== undefined &&
    window.kind !== window.asked &&
    accounts.lights.length > 0 &&
    accounts.lights.every(({ causes }) => causes.some(({ kind }) => kind === 'twilight'))
  )
    return (
      'It never grew dark enough for any frame: on such nights narrow bands bear the twilight best. A lighter ' +
      '“darkness” in the rig file counts what was taken in it.'
    );
  const ms = (verdict: 'taken' | 'kept'): number => accounts.totals.reduce((all, total) => all + total.ms[verdict], 0);
  return ms('kept') < ms('taken') / 2
    ? 'Most of what was exposed is not kept: see first what the frames were doubtful or lost for.'
    : 'No finding promises a minute: nothing to change.';
}
