import { counted, duration, groupBy, increment, oncePer, type Finding, type Night } from '../../../model/index.js';
import { listing } from '../../figures/listed.js';
import { winText } from '../../figures/win-text.js';
import type { ViewContext } from './context.js';

export interface FindingView {
  readonly id: string;
  readonly rank: string;
  readonly title: string;
  readonly cost: string;
  /** Whether the cost is a loss: shown in the loss colour. */
  readonly costs: boolean;
  /** Whether it is a time. */
  readonly timed: boolean;
  readonly frames: string;
  readonly win: string;
  readonly confidence: string;
  readonly evidence: readonly string[];
  readonly advice: string;
  readonly caution: string;
  readonly links: readonly { readonly text: string; readonly anchor: string }[];
}

export interface FindingsView {
  readonly first: readonly FindingView[];
  readonly rest: readonly FindingView[];
  /** Label of the folded remainder. */
  readonly restTitle: string;
  /** Questions by the input that they lack. */
  readonly notAssessed: readonly { readonly titles: string; readonly need: string; readonly missing: string }[];
  readonly none: boolean;
}

/** A phone folds the later ones. */
const FIRST = 5;

const shownAnchors = oncePer(
  (night: Night) => new Set(night.accounts.lights.filter(listing(night)).map(({ id }) => `frame-${id}`)),
);

/** Links whose target is on the page: a frame in a run has none of its own. */
function linksOf({ links = [] }: Finding, night: Night): FindingView['links'] {
  const shown = shownAnchors(night);
  return links.filter(({ anchor }) => !anchor.startsWith('frame-') || shown.has(anchor));
}

function findingView(finding: Finding, index: number, night: Night): FindingView {
  return {
    id: finding.id,
    rank: String(index + 1),
    title: finding.title,
    cost: finding.costMs === 0 ? (finding.price ?? 'none') : duration(finding.costMs),
    costs: finding.costMs > 0 || finding.price !== undefined,
    timed: finding.costMs > 0,
    frames: finding.frames === undefined ? '' : String(finding.frames),
    win: winText(finding),
    confidence: finding.confidence,
    evidence: finding.evidence,
    advice: finding.advice,
    caution: finding.caution ?? '',
    links: linksOf(finding, night),
  };
}

/** A finding for each train occurs more than once: the later ones get a number, for ids are the page's anchors. */
function withOwnIds(views: readonly FindingView[]): FindingView[] {
  const seen = new Map<string, number>();
  return views.map((view) => {
    const count = increment(seen, view.id);
    return count === 1 ? view : { ...view, id: `${view.id}-${count}` };
  });
}

/** Findings in the record's order, the first few separately, and what could not be assessed. */
export function findingsView({ night }: ViewContext): FindingsView {
  const views = withOwnIds(night.findings.ranked.map((finding, index) => findingView(finding, index, night)));
  return {
    first: views.slice(0, FIRST),
    rest: views.slice(FIRST),
    restTitle: counted(views.length - FIRST, 'more finding'),
    none: views.length === 0,
    notAssessed: [...groupBy(night.findings.notAssessed, ({ missing }) => missing)].map(([missing, own]) => ({
      titles: own.map(({ title }) => title).join('; '),
      need: own.length > 1 ? 'need' : 'needs',
      missing,
    })),
  };
}
