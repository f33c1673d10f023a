/**
 * Counts each minute once: of two findings on the same train time the one that claims first keeps it, else the
 * costlier. One with nothing left is folded into the other; one with less says so.
 */
import {
  about,
  coveredMs,
  duration,
  groupBy,
  subtract,
  sum,
  union,
  type Finding,
  type Interval,
} from '../model/index.js';
import type { FindingDraft, TrainSpan } from './finding.js';
import { inSentence } from './wording.js';

/** A finding that shares this fraction of its time with costlier ones adds nothing. */
const FOLDED_SHARE = 0.8;
/** A smaller overlap is chance, ms. */
const CHANCE_MS = 30_000;

interface Settled {
  readonly finding: Finding;
  readonly rule?: FindingDraft['rule'];
  /** What it claims, per train. */
  readonly claims: ReadonlyMap<string, readonly Interval[]>;
}

/**
 * Computes the final costs of the findings, costliest first.
 *
 * @param drafts each with its id, in the registry's order
 */
export function countOnce(drafts: readonly (FindingDraft & { readonly id: string })[]): Finding[] {
  const settled: Settled[] = [];
  for (const { minutes, foldedAdvice, rule, claimsFirst: _first, ...finding } of [...drafts].sort(inOrderOfClaims)) {
    const claims = claimsOf(minutes ?? []);
    const ownMs = lengthOf(claims);
    const shares = settled.map((s) => ({ dearer: s, ms: sharedMs(claims, s.claims) }));
    const [most] = [...shares].sort((a, b) => b.ms - a.ms);
    const takenMs =
      ownMs -
      lengthOf(
        without(
          claims,
          settled.map((s) => s.claims),
        ),
      );
    if (!most || takenMs < CHANCE_MS || ownMs === 0) {
      settled.push({ finding, claims, rule });
    } else if (takenMs >= FOLDED_SHARE * ownMs) {
      const at = settled.indexOf(most.dearer);
      const folded = fold(most.dearer.finding, { ...finding, advice: foldedAdvice ?? finding.advice });
      // Of two alternative remedies, the one with the larger gain in the replay is promised, and listed first.
      const wins = rule !== undefined && isLess(folded.winMs, finding.winMs);
      settled[at] = {
        ...most.dearer,
        finding: wins ? { ...folded, winMs: finding.winMs, advice: inTurn(finding, most.dearer.finding) } : folded,
        ...(wins ? { rule } : {}),
      };
    } else {
      const left = 1 - takenMs / ownMs;
      settled.push({
        claims,
        rule,
        finding: lessened(finding, left, takenMs, { where: most.dearer.finding.title, isReplayed: rule !== undefined }),
      });
    }
  }
  return sharedGains(settled.map((s) => ({ ...s, finding: withinItsCost(s) }))).sort(mostRecoverableFirst);
}

/** Whether both are promised, and the first is smaller. */
function isLess(a: number | undefined, b: number | undefined): boolean {
  return a !== undefined && b !== undefined && a < b;
}

/** A replayed rule's gain counts once, however many findings depend on it: each has its share, and says so. */
function sharedGains(settled: readonly Settled[]): Finding[] {
  return settled.map(({ finding, rule }) => {
    if (rule === undefined || finding.winMs === undefined) return finding;
    const allMs = sum(settled.flatMap((s) => (s.rule?.id === rule.id ? (s.finding.winMs ?? []) : [])));
    const winMs = allMs > rule.gainMs ? Math.floor((finding.winMs * rule.gainMs) / allMs) : finding.winMs;
    return about(winMs) === about(rule.gainMs)
      ? { ...finding, winMs }
      : {
          ...finding,
          winMs,
          evidence: [
            ...finding.evidence,
            `of the ${about(rule.gainMs)} that the replay gains, ${about(winMs)} are counted here`,
          ],
        };
  });
}

/**
 * Blocking findings first; then by recoverable time, then by cost; unavoidable ones come last, preceded by undecidable
 * ones.
 */
export function mostRecoverableFirst(a: Finding, b: Finding): number {
  return (
    Number(b.isFirst ?? false) - Number(a.isFirst ?? false) ||
    Number(a.winMs === 0) - Number(b.winMs === 0) ||
    (b.winMs ?? 0) - (a.winMs ?? 0) ||
    b.costMs - a.costMs
  );
}

type Claim = Pick<FindingDraft, 'costMs' | 'winMs' | 'claimsFirst'>;

/** Findings that claim first, then by cost; unavoidable findings come after everything recoverable. */
function inOrderOfClaims(a: Claim, b: Claim): number {
  return (
    Number(a.winMs === 0) - Number(b.winMs === 0) ||
    Number(b.claimsFirst ?? false) - Number(a.claimsFirst ?? false) ||
    b.costMs - a.costMs
  );
}

function claimsOf(minutes: readonly TrainSpan[]): Map<string, Interval[]> {
  return new Map([...groupBy(minutes, (m) => m.train)].map(([train, own]) => [train, union(own.map((m) => m.span))]));
}

function lengthOf(claims: ReadonlyMap<string, readonly Interval[]>): number {
  return sum([...claims.values()].map(coveredMs));
}

function without(
  claims: ReadonlyMap<string, readonly Interval[]>,
  others: readonly ReadonlyMap<string, readonly Interval[]>[],
): Map<string, Interval[]> {
  return new Map(
    [...claims].map(([train, spans]) => [
      train,
      subtract(
        spans,
        others.flatMap((o) => o.get(train) ?? []),
      ),
    ]),
  );
}

function sharedMs(
  claims: ReadonlyMap<string, readonly Interval[]>,
  other: ReadonlyMap<string, readonly Interval[]>,
): number {
  return lengthOf(claims) - lengthOf(without(claims, [other]));
}

/** The costlier finding, extended by the other's evidence and advice. */
function fold(dearer: Finding, other: Finding): Finding {
  const links = [...(dearer.links ?? []), ...(other.links ?? [])];
  return {
    ...dearer,
    evidence: [
      ...dearer.evidence,
      `About the same minutes: ${inSentence(other.title)}.`,
      ...other.evidence.filter((line) => !dearer.evidence.includes(line)),
    ],
    advice: inTurn(dearer, other),
    ...(links.length > 0 ? { links: links.filter((l, i) => links.findIndex((m) => m.anchor === l.anchor) === i) } : {}),
    ...((dearer.caution ?? other.caution) ? { caution: dearer.caution ?? other.caution } : {}),
  };
}

/** Both pieces of advice, each sentence once. */
function inTurn(first: Pick<Finding, 'advice'>, second: Pick<Finding, 'advice'>): string {
  return [first.advice, ...newSentences(first.advice, second.advice)].join(' ');
}

/** A gain beyond its cost belongs to something else, which has its own finding. */
function withinItsCost({ finding, rule }: Settled): Finding {
  const { costMs, winMs = 0, evidence } = finding;
  if (costMs === 0 || winMs <= costMs) return finding;
  return {
    ...finding,
    winMs: costMs,
    evidence:
      winMs - costMs < CHANCE_MS || rule !== undefined
        ? evidence
        : [...evidence, 'recoverable: no more than it cost; the rest of the gain comes from what other findings cost'],
  };
}

/**
 * The part of an advice that another does not contain; of sentences with the same beginning, the part after the colon.
 */
function newSentences(known: string, advice: string): string[] {
  const said = known.toLowerCase();
  return (
    advice
      .split(/(?<=[.!?])\s+(?=[\p{Lu}“])/u)
      .filter((sentence) => sentence !== '' && !known.includes(sentence))
      // `Try this: dither every 4 frames.` says no more than `Dither every 4 frames: …` before it.
      .filter((sentence) => !said.includes(`${sentence.slice(sentence.indexOf(': ') + 2, -1).toLowerCase()}: `))
      .map((sentence) => {
        const colon = sentence.indexOf(': ');
        const isBegun = colon > 0 && said.includes(`${sentence.slice(0, colon).toLowerCase()}.`);
        return isBegun ? sentence.charAt(colon + 2).toUpperCase() + sentence.slice(colon + 3) : sentence;
      })
  );
}

/** @param isReplayed whether its gain comes from a rule of the replay, whose whole gain is given next to it */
function lessened(
  finding: Finding,
  left: number,
  takenMs: number,
  { where, isReplayed }: { readonly where: string; readonly isReplayed: boolean },
): Finding {
  return {
    ...finding,
    costMs: Math.round(finding.costMs * left),
    ...(finding.winMs === undefined ? {} : { winMs: Math.round(finding.winMs * left) }),
    evidence: [
      ...finding.evidence,
      `${duration(takenMs)} of it are counted under “${where}” and left out here` +
        (isReplayed || !finding.winMs ? '' : `; followed alone, this advice gains ${about(finding.winMs)}`),
    ],
  };
}
