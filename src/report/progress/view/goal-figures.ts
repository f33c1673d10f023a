import { duration, percent, type ProgressLine, type TargetProgress } from '../../../model/index.js';
import { solidArea, verdictArea, type AreaStyle } from '../../design/area.js';
import { filterLabel, nameOf, type ProgressContext } from '../context.js';

/** One part of a bar; position and width in per cent of the figure. */
export interface GoalPart {
  readonly x: string;
  readonly width: string;
  readonly xEnd: string;
  readonly style: AreaStyle;
  readonly title: string;
}

export interface GoalBar {
  readonly label: string;
  readonly value: string;
  readonly share: string;
  /** Width of the frame that represents the goal; empty without one. */
  readonly goal: string;
  readonly parts: readonly GoalPart[];
}

/** One target's bars: as long as their hours, within a frame as long as the goal. */
export interface GoalFigure {
  readonly anchor: string;
  readonly name: string;
  readonly note: string;
  readonly bars: readonly GoalBar[];
}

const percentText = (share: number): string => `${(Math.min(1, Math.max(0, share)) * 100).toFixed(3)}%`;

function bar(context: ProgressContext, line: ProgressLine, fullMs: number): GoalBar {
  const { kept, doubtful } = line.ms;
  const label = `${filterLabel(context, line.filter)}${line.train === null ? '' : `, ${line.train}`}`;
  const colour = context.palette.filter(line.filter ?? '').colour;
  const part = (fromMs: number, ms: number, style: AreaStyle, title: string): GoalPart[] =>
    ms <= 0
      ? []
      : [
          {
            x: percentText(fromMs / fullMs),
            width: percentText(ms / fullMs),
            xEnd: percentText((fromMs + ms) / fullMs),
            style,
            title,
          },
        ];
  return {
    label,
    value: line.goalMs === null ? duration(kept) : `${duration(kept)} of ${duration(line.goalMs)}`,
    share: line.goalMs === null || line.goalMs === 0 ? '' : percent(kept / line.goalMs),
    goal: line.goalMs === null ? '' : percentText(line.goalMs / fullMs),
    parts: [
      ...part(0, kept, solidArea(colour), `${label}: ${duration(kept)} kept`),
      ...part(kept, doubtful, verdictArea(colour, 'doubtful'), `${label}: ${duration(doubtful)} doubtful`),
    ],
  };
}

/** Bars of a target's lines, all on one scale of hours. */
export function goalFigure(context: ProgressContext, target: TargetProgress): GoalFigure {
  const fullMs = Math.max(1, ...target.lines.map(({ goalMs, ms }) => Math.max(goalMs ?? 0, ms.kept + ms.doubtful)));
  const { goalMs, remainingMs } = target;
  const note =
    goalMs === null || remainingMs === null
      ? 'no goal'
      : remainingMs <= 0
        ? 'finished'
        : `${percent(1 - remainingMs / goalMs)} of ${duration(goalMs)}`;
  return {
    anchor: context.anchorOf(target.name),
    name: nameOf(target),
    note,
    bars: target.lines.map((line) => bar(context, line, fullMs)),
  };
}
