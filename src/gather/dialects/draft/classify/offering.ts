import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { courseOf, isNoise, saysNothing } from '../lexicon/said.js';
import type { Decoded } from './decode.js';
import type { Stated } from './durations.js';
import { sideInTurn } from './in-turn.js';
import type { StatedTimes } from './night-fit.js';
import type { Occurrence } from './occurrences.js';
import { linesTelling, type Offer, offersFor } from './offers.js';
import type { Candidate } from './own-evidence.js';
import { Surroundings } from './surroundings.js';
import type { Trains } from './trains.js';

/** What was found about the kinds of a log during classification. */
export interface Weighed {
  readonly candidates: readonly Candidate[];
  readonly own: ReadonlyMap<Kind, ReadonlyMap<EventName, number>>;
  readonly rankings: ReadonlyMap<Kind, Decoded>;
  readonly timeline: readonly Occurrence[];
  readonly times: StatedTimes;
  readonly durations: ReadonlyMap<Kind, Stated>;
  readonly trains: Trains | null;
}

/** Finds the events to offer for unclassified kinds, using everything already decided. */
export class Offering {
  private around: Surroundings | null = null;
  private readonly left: readonly Kind[];

  constructor(
    private readonly weighed: Weighed,
    private readonly taken: ReadonlyMap<Kind, EventName>,
  ) {
    this.left = weighed.candidates.flatMap(({ kind }) =>
      taken.has(kind) || isNoise(kind.wording) || saysNothing(kind.wording) ? [] : [kind],
    );
  }

  /**
   * The possible events of a kind, likeliest first. @param doubted the event withdrawn because the timeline contradicts
   * it
   */
  of(kind: Kind, doubted: readonly EventName[]): readonly Offer[] {
    const { own, rankings, durations, trains, times } = this.weighed;
    const isTaken = this.taken.has(kind);
    const taken = isTaken ? new Map([...this.taken].filter(([one]) => one !== kind)) : this.taken;
    return offersFor({
      kind,
      own: own.get(kind) ?? new Map<EventName, number>(),
      nights: new Map(rankings.get(kind)?.ranking),
      around: (isTaken ? this.aroundOf(taken) : (this.around ??= this.aroundOf(taken))).of(kind),
      counts: linesTelling(taken, times),
      course: courseOf(kind.wording.slice(kind.lead)),
      duration: durations.get(kind),
      side: isTaken ? null : sideInTurn(kind, this.left),
      train: trains === null ? null : trains.of(kind, 0),
      doubted,
    });
  }

  private aroundOf(taken: ReadonlyMap<Kind, EventName>): Surroundings {
    const { timeline, times, trains } = this.weighed;
    return new Surroundings(taken, timeline, times, trains);
  }
}
