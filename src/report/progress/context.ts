import type { Counting, Outlook, Plan, Progress, TargetProgress } from '../../model/index.js';
import { paletteFor, type Palette } from '../design/filters.js';
import type { ChartView } from '../html/view/charts.js';

export interface ProgressPageOptions {
  /** The present, UTC ms, for the colophon. */
  readonly nowMs: number;
  readonly version: string;
  /** Omit the site's name and every external link. */
  readonly share: boolean;
  /** How kept time was counted; by exposure time when absent. */
  readonly counting?: Counting;
  /** What to image on the coming nights; no section of it when absent. */
  readonly plan?: Plan | null;
  /** Draw the charts for paper as well: the page will be printed. */
  readonly forPaper?: boolean;
  /** Turns a report's path in the archive into a link from the page; `null` if there is none. */
  readonly linkTo: (report: string | null) => string | null;
  /** Pictures whose drawing has begun; they are drawn for the page when absent. */
  readonly pictures?: Promise<ProgressPictures>;
}

/** Pictures of the nights so far. */
export interface ProgressPictures {
  readonly growth: ChartView;
  readonly trends: readonly ChartView[];
  /** In the order of the targets. */
  readonly targets: readonly ChartView[];
}

/** The input of every section's builder. */
export interface ProgressContext extends ProgressPageOptions {
  readonly progress: Progress;
  readonly outlook: Outlook | null;
  readonly palette: Palette;
  /** Anchor of a target's section. */
  readonly anchorOf: (target: string) => string;
  /** Colour token of a target, the same on every chart; not used for trains, filters or accounts. */
  readonly colourOf: (target: string) => string;
}

/** Number of targets with their own colour; more curves would be indistinguishable. */
export const MOST_TARGETS = 6;

/** The context of one archive. */
export function progressContext(
  progress: Progress,
  outlook: Outlook | null,
  options: ProgressPageOptions,
): ProgressContext {
  const filters = progress.targets.flatMap((target) => target.lines.flatMap((line) => line.filter ?? []));
  const anchors = new Map(progress.targets.map((target, index) => [target.name, `target-${index + 1}`] as const));
  return {
    ...options,
    progress,
    outlook,
    palette: paletteFor(filters, progress.trains),
    colourOf: (target) => {
      const index = progress.targets.findIndex(({ name }) => name === target);
      return index < 0 ? 'ink' : `target-${(index % MOST_TARGETS) + 1}`;
    },
    anchorOf: (target) => anchors.get(target) ?? 'targets',
  };
}

/** Names up to this length stay on one line. */
const FIRM_LENGTH = 16;

/** A target's display name; a short one never breaks. */
export function nameOf(target: Pick<TargetProgress, 'name'> | string): string {
  const name = typeof target === 'string' ? target : target.name;
  if (name === '') return 'no target named';
  return name.length <= FIRM_LENGTH ? name.replaceAll(' ', '\u00a0') : name;
}

/** A filter's display name; a goal over all filters has none. */
export function filterLabel({ palette }: ProgressContext, filter: string | null): string {
  return filter === null ? 'any filter' : palette.filter(filter).label;
}
