import { endOf, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { isNoise, saysNothing } from '../lexicon/said.js';
import { alternating } from './alternating.js';
import { answered } from './answered.js';
import { asPassed, setBackAt } from './clock-set-back.js';
import { balanced } from './balanced.js';
import { contradicting } from './consistency.js';
import { tellsNoEnds } from './no-ends.js';
import { decodeUndisturbed, isSensible } from './disturbing.js';
import { statedDurations } from './durations.js';
import { stateIndex } from './grammar.js';
import { LEAD, leadOver } from './lead.js';
import { NightFit } from './night-fit.js';
import { Offering } from './offering.js';
import { withNamedTrains } from './of-trains.js';
import { timelineOf } from './occurrences.js';
import { hasTime, type Candidate } from './own-evidence.js';
import { priorOf } from './priors.js';
import { mayTell } from './said-only.js';
import { isBefore, savesBesides, tellsBoth } from '../two-at-once.js';
import { restated } from './restated.js';
import { statedTimes } from './stated-times.js';
import { sidesIn } from './sides.js';
import { stray } from './stray.js';
import { fewDithers } from './few-dithers.js';
import { groupsOf, sequencesOf } from './sequences.js';
import { statesTook } from '../group-names.js';
import { trainsIn, type Trains } from './trains.js';
import { disputed, withdrawn, type TrainOf } from './withdrawal.js';
import { together } from './together.js';
import { repeated } from './repeated.js';
import { tooShort } from './too-short.js';
import { twinsOf } from './twins.js';
import { NOTHING_SAID, takenOf, type Verdict, withdraw } from './verdicts.js';
import { weighedEvidence } from './weighed-evidence.js';
import { statedExposures, type StatedExposure } from './structure.js';

export type { Candidate } from './own-evidence.js';
export { NOTHING_SAID, type Verdict } from './verdicts.js';

/** Minimum improvement of the timeline's score. */
const TAKEN = 0.4;
/** Penalty for what breaks the sequence of the night. */
const FEW_BREAKS = 3;
const INTERRUPTS = /^(?:hold|guiding-end|exposure-abort)/;
/** Structure without words is only reliable if exposures anchor it: fewer are not an anchor. */
const ANCHORS = 6;
/** A kind that fits this badly contradicts the others, whatever its words; a few lines may be chance. */
const CONTRADICTS = -0.3;
const MIN_LINES = 5;
const FITS_WELL = 0.55;
const FITS_BESIDE = 0.2;
/** An event that worsens the timeline this much is not offered. */
const WORTH = 1.5;
/** Nor is an alternative that worsens it this much. */
const MENDS = 1;
/** A rule is flagged if this fraction of its lines contradicts others. */
const DISPUTED = 0.15;
/**
 * Of two events that a line may report with nearly equal evidence, the later is its own: other lines report the earlier
 * one alone.
 */
const AS_LIKELY = 1;
/** Words with this much evidence outweigh a line or two without a counterpart. */
const SURE = 4;

/** The events of all kinds. */
export interface Classified {
  readonly verdicts: ReadonlyMap<Kind, Verdict>;
  readonly stated: readonly StatedExposure[];
  readonly trains: Trains | null;
}

/**
 * Classifies the kinds: words, values and neighbours are weighed together, iterating until nothing changes.
 *
 * @param cameras what distinguishes the exposing devices, where the log names them
 */
export function classify(candidates: readonly Candidate[], cameras: readonly string[] | null = null): Classified {
  const fromLine = setBackAt(candidates.map(({ kind }) => kind));
  if (fromLine === null) return classified(candidates, cameras);
  const asWritten = new Map(candidates.map(({ kind }) => [asPassed(kind, fromLine), kind] as const));
  const written = (kind: Kind): Kind => asWritten.get(kind) ?? kind;
  const passed = [...asWritten.keys()];
  const { verdicts, stated, trains } = classified(
    candidates.map((one, i) => ({ ...one, kind: passed[i] ?? one.kind })),
    cameras,
  );
  return {
    verdicts: new Map([...verdicts].map(([kind, verdict]) => [written(kind), verdict])),
    stated: stated.map((one) => ({
      ...one,
      begin: written(one.begin),
      end: one.end === null ? null : written(one.end),
    })),
    trains,
  };
}

function classified(candidates: readonly Candidate[], cameras: readonly string[] | null): Classified {
  const kinds = candidates.map(({ kind }) => kind);
  const timeline = timelineOf(kinds);
  const durations = statedDurations(kinds, timeline);
  // A row with both ends states no future duration.
  for (const { kind, tookMs } of candidates)
    if (tookMs !== undefined && durations.has(kind)) durations.set(kind, 'past');
  const mayOpen = candidates.flatMap(({ kind, only, tookMs }) =>
    tookMs !== undefined || only?.includes('exposure-begin') === false || saysNothing(kind.wording.slice(kind.lead))
      ? []
      : [kind],
  );
  const stated = statedExposures(mayOpen, timeline).filter(({ begin }) => durations.get(begin) !== 'past');
  const { own, exposures } = weighedEvidence(candidates, timeline, stated, durations);
  const times = statedTimes(candidates, stated, durations);
  const rows = new Map([...times.tookMs].filter(([kind]) => times.rows.has(kind)));
  const trains = trainsIn(stated, kinds, timeline, durations, cameras, rows);
  withNamedTrains(own, timeline, trains);
  const night = new NightFit(kinds, timeline, times, trains);
  const twins = trains === null ? [] : twinsOf(kinds, trains.names);
  const isTwin = (kind: Kind): boolean => twins.some((pair) => pair.includes(kind));
  // If exposures are logged when they end, only words identify those that failed.
  const loggedAtEnd = kinds.some((kind) => times.tookMs.has(kind) && (own.get(kind)?.get('exposure-end') ?? 0) >= SURE);
  const { decoded, disturbing } = decodeUndisturbed(
    candidates.map(({ kind, only }) => ({
      kind,
      own: own.get(kind) ?? new Map<EventName, number>(),
      prior:
        isOpen(kind) && exposures >= ANCHORS
          ? priorOf(kind, exposures, durations.get(kind), isTwin(kind), loggedAtEnd)
          : null,
      only,
    })),
    night,
    sequencesOf(groupsOf(kinds, twins), kinds, timeline),
    exposures >= ANCHORS,
  );
  const rankings = together(decoded, twins);
  // An implausible single-train timeline is misread somewhere: only kinds that fit well are kept.
  const wanted = exposures > 0 && trains === null && !isSensible(rankings, disturbing) ? FITS_WELL : CONTRADICTS;
  const isNotebook = tellsNoEnds(rankings, TAKEN);
  // An end with a duration is dated by that.
  const isDated = (event: EventName): boolean =>
    kinds.some((kind) => statesTook(kind) && rankings.get(kind)?.ranking[0]?.[0] === endOf(event));
  const verdicts = new Map<Kind, Verdict>();
  const tied = new Map<Kind, readonly EventName[]>();
  const earlier = new Map<Kind, EventName>();
  for (const kind of kinds) {
    const { ranking: all, fit, rival } = rankings.get(kind) ?? { ranking: [], fit: 0, rival: Infinity };
    const said = own.get(kind) ?? new Map<EventName, number>();
    const ranking = all.filter(([event, value]) => value > -WORTH && mayTell(event, said));
    const [best] = ranking;
    // What the same line may also report is not a rival.
    const second = ranking.find(
      ([event]) =>
        best !== undefined &&
        event !== best[0] &&
        !(isNotebook && event === endOf(best[0])) &&
        !(event === 'frame-saved' && savesBesides(kind, best[0])) &&
        !tellsBoth(kind, best[0], event),
    );
    const isState = best !== undefined && stateIndex(best[0]) !== undefined;
    const isNamed = best !== undefined && (own.get(kind)?.get(best[0]) ?? 0) > 0;
    const mayFit = isState && exposures > 0 && !(isNamed && kind.count <= FEW_BREAKS && INTERRUPTS.test(best[0]));
    // Opening or closing the shutter at the expected times is confirmed, whatever else is misread.
    const isTimed = stated.some(({ begin, end }) => begin === kind || end === kind);
    const least = isTimed ? CONTRADICTS : best !== undefined && !isState ? Math.min(wanted, FITS_BESIDE) : wanted;
    // Cooling runs in parallel with everything, and one train waits for the dither while the other exposes.
    const isWait = best?.[0] === 'dither-ready' && (said.get('dither-ready') ?? 0) >= SURE && fit >= CONTRADICTS;
    const stands = best?.[0] === 'cooler' || isWait || fit >= least;
    const contradicts = (disturbing.has(kind) && !isTimed) || (kind.count >= MIN_LINES && !stands && exposures > 0);
    const score = best?.[1] ?? 0;
    const other = ranking[1]?.[0];
    const isBoth = best !== undefined && other !== undefined && tellsBoth(kind, best[0], other);
    const isLater = isBoth && score - (ranking[1]?.[1] ?? 0) < AS_LIKELY && isBefore(best[0], other) && !isDated(other);
    const behind = score - Math.max(0, second?.[1] ?? 0);
    const margin = best === undefined ? 0 : isBoth || isNotebook ? behind : Math.min(rival, behind);
    const first = isLater ? best[0] : isBoth && isBefore(other, best[0]) ? other : undefined;
    if (first !== undefined) earlier.set(kind, first);
    if (score >= TAKEN && margin < LEAD && !contradicts && fit >= FITS_BESIDE)
      tied.set(
        kind,
        ranking.filter(([, value]) => value > score - LEAD).map(([event]) => event),
      );
    verdicts.set(kind, {
      event:
        best !== undefined && score >= TAKEN && margin >= (mayFit ? leadOver(fit) : LEAD) && !contradicts
          ? isLater
            ? other
            : best[0]
          : null,
      score,
      margin,
      next: second !== undefined && second[1] > -MENDS ? second[0] : null,
      offers: () => [],
    });
  }
  const doubtful = kinds.flatMap((kind) => {
    const { event, score, margin } = verdicts.get(kind) ?? NOTHING_SAID;
    const likeliest = rankings.get(kind)?.ranking[0]?.[0];
    const isLikely = event === null && score >= TAKEN && margin >= LEAD && likeliest !== undefined;
    return isLikely && (own.get(kind)?.get(likeliest) ?? 0) > 0 ? [{ kind, event: likeliest }] : [];
  });
  const surely = new Map([...takenOf(verdicts, new Set())].map(([kind, { event }]) => [kind, event]));
  for (const { kind, event } of answered(doubtful, surely, timeline)) withdraw(verdicts, kind, event);
  // If lines that state a length open the shutter, lines with weak evidence do not.
  const isTimedBegin = (kind: Kind): boolean => stated.some(({ begin }) => begin === kind);
  if ([...verdicts].some(([kind, { event }]) => event === 'exposure-begin' && isTimedBegin(kind)))
    for (const [kind, { event, score }] of verdicts)
      if (event === 'exposure-begin' && score < SURE && !isTimedBegin(kind)) withdraw(verdicts, kind, null);
  const trainOf: TrainOf = (kind, nth) => trains?.of(kind, nth) ?? -1;
  const ranges = times.rows;
  for (const [kind, event] of alternating(takenOf(verdicts, ranges), timeline, trainOf))
    withdraw(verdicts, kind, event);
  const taken = new Map([...verdicts].flatMap(([kind, { event }]) => (event === null ? [] : [[kind, event] as const])));
  const scoreOf = (kind: Kind): number => verdicts.get(kind)?.score ?? 0;
  for (const kind of [...restated(taken), ...repeated(taken, scoreOf), ...tooShort(taken), ...fewDithers(taken)])
    withdraw(verdicts, kind, null);
  // Identical reports from the same lines cannot contradict each other.
  for (const kind of contradicting(taken, timeline, trainOf)) withdraw(verdicts, kind, earlier.get(kind) ?? null);
  const left = takenOf(verdicts, ranges);
  for (const [kind, event] of withdrawn(left, timeline, trainOf)) withdraw(verdicts, kind, event);
  const events = new Map([...takenOf(verdicts, ranges)].map(([kind, { event }]) => [kind, event] as const));
  const isSure = (kind: Kind): boolean => scoreOf(kind) >= SURE;
  const strays = stray(events, timeline, trainOf, isSure);
  const sides = sidesIn(strays, events, own);
  for (const kind of strays) withdraw(verdicts, kind, sides.get(kind) ?? null);
  const settled = new Map([...takenOf(verdicts, ranges)].map(([kind, { event }]) => [kind, event] as const));
  for (const [kind, event] of balanced(tied, settled, timeline)) withdraw(verdicts, kind, event);
  for (const [kind, share] of disputed(takenOf(verdicts, ranges), timeline, trainOf)) {
    const verdict = verdicts.get(kind);
    if (verdict !== undefined && share > DISPUTED) verdicts.set(kind, { ...verdict, margin: 0 });
  }
  const made = new Map([...verdicts].flatMap(([kind, { event }]) => (event === null ? [] : [[kind, event] as const])));
  const offering = new Offering({ candidates, own, rankings, timeline, times, durations, trains }, made);
  for (const [kind, verdict] of verdicts)
    verdicts.set(kind, { ...verdict, offers: (doubted) => offering.of(kind, doubted) });
  return { verdicts, stated, trains };
}

/** Irrelevant and single lines are classified by their words or not at all. */
function isOpen(kind: Kind): boolean {
  return kind.count >= 2 && !isNoise(kind.wording) && hasTime(kind);
}
