import { duration, percent, type Finding } from '../../../model/index.js';
import { solidArea, type AreaStyle } from '../../design/area.js';
import { goalLinesOf, type GoalLine } from '../../figures/goals.js';
import type { ViewContext } from './context.js';

/** Something to do differently, and what it wins. */
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
  readonly width: string;
  readonly style: AreaStyle;
}

export interface TargetGoalsView {
  readonly target: string;
  readonly hasGoals: boolean;
  readonly bars: readonly GoalBar[];
}

export interface TonightView {
  readonly actions: readonly Action[];
  /** Why there is no action; empty when there is one. */
  readonly none: string;
  readonly goals: readonly TargetGoalsView[];
}

const MOST_ACTIONS = 3;
const MOST_TARGETS = 4;
/** Findings whose advice is another length of the subs: darks of that length have to be taken first. */
const NEEDS_DARKS: ReadonlySet<string> = new Set(['unequal-exposures', 'sub-length']);

/** The advice's first sentence; what follows stands with the finding. */
function firstSentence(advice: string): string {
  return /^.+?[.!](?=\s+[A-Z“]|$)/s.exec(advice)?.[0] ?? advice;
}

/** At most three actions that win something, those that need no new darks first, else in the findings' own order. */
function actionsOf(ranked: readonly Finding[], anchors: readonly string[]): Action[] {
  const all = ranked.flatMap((finding, index): Action[] =>
    finding.winMs === undefined || finding.winMs <= 0
      ? []
      : [
          {
            what: firstSentence(finding.advice),
            win: duration(finding.winMs),
            title: finding.title,
            anchor: `finding-${anchors[index] ?? finding.id}`,
            needsDarks: NEEDS_DARKS.has(finding.id) || (finding.newDarks ?? []).length > 0,
          },
        ],
  );
  return [...all.filter((one) => !one.needsDarks), ...all.filter((one) => one.needsDarks)].slice(0, MOST_ACTIONS);
}

function bar(line: GoalLine, longestMs: number, { palette, night }: ViewContext): GoalBar {
  const style = palette.filter(line.filter ?? '');
  const whole = line.goalMs ?? longestMs;
  const share = whole <= 0 ? 0 : Math.min(1, line.keptMs / whole);
  const train = line.train !== null && night.gathered.trains.length > 1 ? `, ${line.train}` : '';
  return {
    label: `${line.filter === null ? 'all filters' : style.label}${train}`,
    value:
      line.goalMs === null
        ? duration(line.keptMs)
        : `${duration(line.keptMs)} of ${duration(line.goalMs)}, ` +
          `${percent(line.goalMs === 0 ? null : line.keptMs / line.goalMs)}`,
    width: `${(share * 100).toFixed(2)}%`,
    style: solidArea(line.filter === null ? 'bar' : style.colour),
  };
}

function goalsOf(context: ViewContext): TargetGoalsView[] {
  const lines = goalLinesOf(context.night);
  const longestMs = Math.max(0, ...lines.filter(({ goalMs }) => goalMs === null).map(({ keptMs }) => keptMs));
  return [...new Set(lines.map(({ target }) => target))].slice(0, MOST_TARGETS).map((target) => {
    const own = lines.filter((line) => line.target === target);
    return {
      target: target === '' ? 'no target named' : target,
      hasGoals: own.some(({ goalMs }) => goalMs !== null),
      bars: own.map((line) => bar(line, longestMs, context)),
    };
  });
}

/**
 * What to do on the next night, and what this one added.
 *
 * @param anchors each finding's id on the page, in the findings' order
 */
export function tonightView(context: ViewContext, anchors: readonly string[]): TonightView {
  const actions = actionsOf(context.night.findings.ranked, anchors);
  return {
    actions,
    none: actions.length > 0 ? '' : 'No finding promises a minute: nothing to change.',
    goals: goalsOf(context),
  };
}
