/**
 * Registers one star list to another: triangles give hypotheses, the stars vote on each, all of them refine the best.
 */
import { itemAt } from '../../model/collections.js';
import type { PixelPoint, Registration, Similarity } from '../../model/index.js';
import { evenChance, falseAlarmOf, MOST_FALSE_ALARM, poissonTail } from './false-alarm.js';
import { type Grid, gridOf } from './grid.js';
import { ideasFromGuess } from './guess.js';
import { type Fit, matchWithin, type Matches, robustFit, roomForMatches } from './matching.js';
import { fitSimilarity, inverse } from './similarity.js';
import { brightest, type StarList } from './star-list.js';
import { allTriangles, eachLike, type Likeness, neighbourTriangles, sortByShape, type Triangles } from './triangles.js';

/** Prior knowledge about the two lists. */
export interface Expected {
  readonly likeness: Likeness;
  /** Number of stars that vote. */
  readonly voters: number;
  /** Distances within which stars match: for a coarse hypothesis, and in the end, px of the reference. */
  readonly coarsePx: number;
  readonly finalPx: number;
  /** Triangles of the list to be registered. */
  readonly triangles: (list: StarList) => Triangles;
}

/** Same train: no mirror, the scale within half a percent, 60 bright stars of the reference against 30 of the frame. */
export const SAME_TRAIN: Expected = {
  likeness: { sidePx: 1.5, sideShare: 0.0005, scale: { least: 0.995, most: 1.005 }, mirrored: 'no' },
  voters: 200,
  coarsePx: 5,
  finalPx: 1,
  triangles: (list) => allTriangles(list, 30),
};

/** Fewer matches are not accepted. */
export const FEWEST_MATCHES = 6;
const FEWEST_STARS = FEWEST_MATCHES;
const REFERENCE_STARS = 60;
/** A hypothesis this unlikely to be chance ends the search. */
const DECISIVE = 1e-12;

/** A star list prepared as a reference. */
export interface Reference {
  readonly list: StarList;
  readonly all: Grid;
  readonly voters: Grid;
  readonly triangles: Triangles;
}

/** Prepares a list of the same train. */
export function referenceOf(list: StarList): Reference {
  return prepared(list, SAME_TRAIN.voters, allTriangles(list, REFERENCE_STARS));
}

/** Prepares another train's list: its brightest stars, each with its neighbours. */
export function trainReferenceOf(list: StarList, most: number, neighbours: number): Reference {
  return prepared(list, most, neighbourTriangles(list, most, neighbours));
}

function prepared(list: StarList, voters: number, triangles: Triangles): Reference {
  return { list, all: gridOf(list), voters: gridOf(brightest(list, voters)), triangles: sortByShape(triangles) };
}

/** A hypothesis for the similarity from the list to the reference, with the stars that voted for it. */
interface Idea {
  readonly similarity: Similarity;
  readonly votes: number;
}

/**
 * Registers a list to a reference. A guess (from the reference to the list, shifted by up to ±80 px) is tried first; if
 * it fails, triangles are used independently. Never throws; failures have a reason.
 */
export function register(reference: Reference, list: StarList, expected: Expected, guess?: Similarity): Registration {
  if (reference.list.count < FEWEST_STARS || list.count < FEWEST_STARS) {
    return { state: 'unregistered', why: 'too-few-stars', matched: 0 };
  }
  const voters = brightest(list, expected.voters);
  const vote = new Vote(reference, voters, expected);
  if (guess) {
    for (const idea of ideasFromGuess(reference.voters.list, voters, inverse(guess))) if (vote.on(idea)) break;
    const answer = settled(reference, list, voters, expected, vote);
    if (answer.state === 'registered') return answer;
  }
  const triangles = expected.triangles(list);
  eachLike(reference.triangles, triangles, expected.likeness, (t, s) => {
    const idea = ideaOf(triangles, t, reference.triangles, s);
    return idea !== null && vote.on(idea);
  });
  return settled(reference, list, voters, expected, vote);
}

/** The similarity that maps three stars to three. */
function ideaOf(from: Triangles, t: number, to: Triangles, s: number): Similarity | null {
  for (let k = 0; k < 3; k++) {
    const p = from.corners[3 * t + k]!;
    const q = to.corners[3 * s + k]!;
    corner.fromX[k] = from.list.x[p]!;
    corner.fromY[k] = from.list.y[p]!;
    corner.toX[k] = to.list.x[q]!;
    corner.toY[k] = to.list.y[q]!;
  }
  return fitSimilarity(corner, from.turn[t] !== to.turn[s]);
}

const corner = {
  count: 3,
  fromX: new Float64Array(3),
  fromY: new Float64Array(3),
  toX: new Float64Array(3),
  toY: new Float64Array(3),
  weight: new Float64Array([1, 1, 1]),
};

/** Counts the stars that support each hypothesis and keeps the best. */
class Vote {
  best: Idea | null = null;
  trials = 0;
  private readonly matches: Matches;
  private readonly enough: number;

  constructor(
    private readonly reference: Reference,
    private readonly voters: StarList,
    private readonly expected: Expected,
  ) {
    this.matches = roomForMatches(voters.count);
    const chance = evenChance(voters, reference.voters.list, expected.finalPx);
    let votes = 2 * FEWEST_MATCHES;
    while (votes < voters.count && poissonTail(chance, votes - 3) > DECISIVE) votes++;
    this.enough = votes;
  }

  /** Returns whether the hypothesis is beyond doubt. */
  on(idea: Similarity): boolean {
    this.trials++;
    const { reference, voters, expected, matches } = this;
    matchWithin(voters, reference.voters, idea, expected.coarsePx, matches);
    if (matches.count < FEWEST_MATCHES) return false;
    const coarse = robustFit(matches, idea.mirrored)?.similarity ?? idea;
    matchWithin(voters, reference.voters, coarse, 2 * expected.finalPx, matches);
    const finer = (matches.count >= FEWEST_MATCHES && robustFit(matches, idea.mirrored)?.similarity) || coarse;
    matchWithin(voters, reference.voters, finer, expected.finalPx, matches);
    if (this.best === null || matches.count > this.best.votes) this.best = { similarity: finer, votes: matches.count };
    return matches.count >= this.enough;
  }
}

/** Refines the best hypothesis on all stars and judges it. */
function settled(reference: Reference, list: StarList, voters: StarList, expected: Expected, vote: Vote): Registration {
  const { best, trials } = vote;
  if (best === null) return { state: 'unregistered', why: 'no-match', matched: 0 };
  const { finalPx } = expected;
  const refined = refine(reference, list, best.similarity, finalPx);
  if (refined === null || refined.matched < FEWEST_MATCHES) {
    return { state: 'unregistered', why: 'no-match', matched: best.votes };
  }
  const matches = roomForMatches(voters.count);
  matchWithin(voters, reference.voters, refined.fit.similarity, finalPx, matches);
  const falseAlarm = falseAlarmOf(voters, reference.voters, refined.fit.similarity, finalPx, matches.count, trials);
  if (matches.count < FEWEST_MATCHES || falseAlarm > MOST_FALSE_ALARM) {
    return { state: 'unregistered', why: 'as-a-random-field', matched: refined.matched };
  }
  const { similarity, residualPx } = refined.fit;
  return { state: 'registered', similarity: inverse(similarity), matched: refined.matched, residualPx, falseAlarm };
}

const REFINING_ROUNDS = 3;

function refine(
  reference: Reference,
  list: StarList,
  start: Similarity,
  withinPx: number,
): { readonly fit: Fit; readonly matched: number } | null {
  const matches = roomForMatches(list.count);
  let fit: Fit | null = null;
  let similarity = start;
  for (let round = 0; round < REFINING_ROUNDS; round++) {
    matchWithin(list, reference.all, similarity, withinPx, matches);
    const next = robustFit(matches, start.mirrored);
    if (next === null) return null;
    const still = moved(similarity, next.similarity, reference) < 1e-4;
    fit = next;
    similarity = next.similarity;
    if (still) break;
  }
  return fit && { fit, matched: matches.count };
}

/** How far two similarities differ at the reference's brightest star and at the origin, px. */
function moved(a: Similarity, b: Similarity, reference: Reference): number {
  const reach: PixelPoint = { x: itemAt(reference.list.x, 0), y: itemAt(reference.list.y, 0) };
  const turned = Math.abs(a.rotation - b.rotation) * (Math.PI / 180) + Math.abs(a.scale / b.scale - 1);
  return Math.hypot(a.x - b.x, a.y - b.y) + turned * Math.hypot(reach.x, reach.y);
}
