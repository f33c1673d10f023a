/** What to do differently on the next night: at most three actions, from the advice of the findings. */
import { LEFT_OUT, duration, groupBy, listed, sum, type Finding } from '../../../model/index.js';
import { winText } from '../../figures/win-text.js';

/** Something to do differently. */
export interface Action {
  readonly what: string;
  /** The gain, in words; empty if unknown, or if it is not a time. */
  readonly win: string;
  /** The loss, if the gain is unknown; else empty. */
  readonly cost: string;
  readonly confidence: Finding['confidence'];
  /** Caution for advice on moving equipment. */
  readonly caution: string | undefined;
  readonly title: string;
  readonly anchor: string;
  readonly needsDarks: boolean;
}

export interface Actions {
  readonly actions: readonly Action[];
  /** Further advice with a gain: named after them, so that no large loss is unanswered. */
  readonly further: readonly Action[];
}

const MOST_ACTIONS = 3;
const MOST_FURTHER = 2;
/** Less is not worth a change of habits, ms. */
const LEAST_MS = 180_000;
/** Advice without a promised gain, or after the first three, is named from this cost on, ms. */
const WORTH_NAMING_MS = 600_000;
/** Findings whose advice is for processing, not for the next night. */
const AT_THE_DESK: ReadonlySet<string> = new Set(['marginal-frames']);
/** Losses without a possible promise that are no habit: the Moon is a matter of planning. */
const FOR_THE_PLAN: ReadonlySet<string> = new Set(['moon-cost', 'moon-near']);
/** Findings that advise another sub length: darks of that length have to be taken first. */
const NEEDS_DARKS: ReadonlySet<string> = new Set(['unequal-exposures', 'sub-length']);

/** The advice's first sentence; the rest is with the finding. */
function firstSentence(advice: string): string {
  return /^.+?[.!](?=\s+[A-Z“]|$)/s.exec(advice)?.[0] ?? advice;
}

/** Placeholder for the train in a sentence about one. */
const TRAIN = '\u0000';

/**
 * A sentence with a placeholder for the trains that it names in one place; unchanged if it names none, or some in two
 * places.
 */
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

/** What is to be changed, without how it is put: two findings may ask for the same dithers for reasons of their own. */
function changeIn(what: string): string {
  return /dither every (?:frame|\d+ frames)(?=[.:])/i.exec(what)?.[0].toLowerCase() ?? what;
}

/** New darks are worth the effort if they gain this many times what needs none. Common practice, no source. */
const DARKS_WORTH = 2;

/** Least certain first. */
const CONFIDENCES: readonly Finding['confidence'][] = ['low', 'medium', 'high'];

interface Ranked extends Action {
  readonly costMs: number;
  readonly winMs: number;
  readonly isFirst: boolean;
}

function ranked(finding: Finding, anchor: string): Ranked {
  const { winMs = 0, costMs } = finding;
  return {
    what: firstSentence(finding.advice),
    winMs,
    isFirst: finding.isFirst === true,
    costMs,
    win: winText(finding),
    cost: winMs === 0 && costMs > 0 ? duration(costMs) : '',
    confidence: finding.confidence,
    caution: finding.caution,
    title: finding.title,
    anchor: `finding-${anchor}`,
    needsDarks: NEEDS_DARKS.has(finding.id) || (finding.newDarks ?? []).length > 0,
  };
}

/** Identical advice of several findings, as one action for all of their trains. */
function joined(alike: readonly Ranked[], trains: readonly string[]): Ranked[] {
  const [first] = alike;
  if (first === undefined) return [];
  const winMs = sum(alike.map((one) => one.winMs));
  const costMs = sum(alike.map((one) => one.costMs));
  return [
    {
      ...first,
      what: saidOnce(alike, first, trains),
      winMs,
      costMs,
      win: winText({ costMs, winMs }),
      cost: first.cost === '' ? '' : duration(costMs),
      confidence: CONFIDENCES.find((level) => alike.some(({ confidence }) => confidence === level)) ?? first.confidence,
      caution: alike.find(({ caution }) => caution !== undefined)?.caution,
    },
  ];
}

/**
 * At most three actions: first what precedes all minutes, then gains, largest first; new darks count half of their
 * gain. The last place is for the largest loss without a promised gain, if a place is free or if it cost more than any
 * action gains.
 *
 * @param findings as they are ranked
 * @param anchors each finding's id on the page, in the same order
 */
export function actionsOf(
  findings: readonly Finding[],
  anchors: readonly string[],
  trains: readonly string[],
): Actions {
  const all = findings.map((finding, index) => ({ finding, anchor: anchors[index] ?? finding.id }));
  const of = (has: (finding: Finding) => boolean): Ranked[] => {
    const own = all.flatMap(({ finding, anchor }) => (has(finding) ? [ranked(finding, anchor)] : []));
    // Identical advice of two findings is given once, for one train or for several.
    return [...groupBy(own, (one) => changeIn(withoutTrains(one.what, trains).text)).values()].flatMap((alike) =>
      joined(alike, trains),
    );
  };
  const worth = ({ winMs, needsDarks }: Ranked): number => (needsDarks ? winMs / DARKS_WORTH : winMs);
  const sorted = of(
    ({ id, isFirst, winMs = 0 }) => isFirst === true || (winMs >= LEAST_MS && !AT_THE_DESK.has(id)),
  ).sort(
    (a, b) =>
      Number(b.isFirst) - Number(a.isFirst) || worth(b) - worth(a) || Number(a.needsDarks) - Number(b.needsDarks),
  );
  // Two changes of sub lengths would contradict each other: the better one is for tonight.
  const first = sorted.find((one) => one.needsDarks);
  const promised = sorted.filter((one) => !one.needsDarks || one === first);
  const [dearest] = of(
    ({ id, isFirst, evidence, winMs, costMs }) =>
      isFirst !== true &&
      // In a shared night the advice is left out.
      !evidence.includes(LEFT_OUT) &&
      winMs === undefined &&
      costMs >= WORTH_NAMING_MS &&
      !FOR_THE_PLAN.has(id) &&
      !AT_THE_DESK.has(id),
  ).sort((a, b) => b.costMs - a.costMs);
  const isNamed =
    dearest !== undefined &&
    (promised.length < MOST_ACTIONS || promised.every(({ winMs, isFirst }) => !isFirst && winMs < dearest.costMs));
  const places = isNamed ? MOST_ACTIONS - 1 : MOST_ACTIONS;
  return {
    actions: [...promised.slice(0, places), ...(isNamed ? [dearest] : [])],
    further: promised
      .slice(places)
      .filter(({ winMs }) => winMs >= WORTH_NAMING_MS)
      .slice(0, MOST_FURTHER),
  };
}
