import { numbersOf } from '../../../../model/collections.js';
import type { Kind } from '../kinds/kind.js';
import { aroundFit, longestOf } from './around.js';
import { ABORTED, besideFit, STAR_FOUND, STAR_LOST } from './beside.js';
import { fitOf, Grammar, STATES, timeCost, type Way } from './grammar.js';
import { BEGIN_STATE_OF, type Labels, UNTAKEN } from './labels.js';
import { loggedStates } from './logged-states.js';
import { LostStars } from './lost-stars.js';
import type { Occurrence } from './occurrences.js';
import { hasFile } from './own-evidence.js';
import type { Trains } from './trains.js';

/** The times that the lines of a kind state, by occurrence; NaN where they state none. */
export interface StatedTimes {
  /** Planned opening of the shutter, ms. */
  readonly opensMs: ReadonlyMap<Kind, readonly number[]>;
  /** Duration of the finished span, ms. */
  readonly tookMs: ReadonlyMap<Kind, readonly number[]>;
  /** Kinds whose rows state both begin and end. */
  readonly rows: ReadonlySet<Kind>;
}

/** Further lines add no information. */
const MAX_LINES = 2500;
const OPEN = STATES.indexOf('exposure-begin');
const CLOSED = STATES.indexOf('exposure-end');
/** Fit of an abort whose beginning is not logged, where exposures are logged at their end. */
const BEGUN_UNLOGGED = 0.4;

/** The direct path from a begin with a known length to its end. */
const AS_STATED: readonly Way[] = [];

/** Mean over the occurrences of each kind, by index; 0 without evidence. */
export type Fits = Float64Array;

/** The last event of each train, by number. */
interface Chains {
  /** −1 before the first. */
  readonly kind: Int32Array;
  readonly state: Int32Array;
  readonly atMs: Float64Array;
  readonly opensMs: Float64Array;
}

/** Scores how plausible a timeline the lines of a log make under a classification of their kinds. */
export class NightFit {
  private readonly kindAt: Int32Array;
  private readonly atMs: Float64Array;
  private readonly trainAt: Int32Array;
  private readonly trains: number;
  private readonly chains: Chains;
  private readonly grammars = new Map<number, Grammar>();
  private readonly ways = new Map<string, readonly Way[]>();
  /**
   * By line and train, the fit of its last step: most steps are unchanged when one kind is reclassified. Numbers are
   * kept in arrays here: passed between functions each would be allocated, a million for a log.
   */
  private readonly lastWays: (readonly Way[] | null)[];
  private readonly lastSeconds: Float64Array;
  private readonly lastOpens: Float64Array;
  private readonly lastFit: Float64Array;
  private readonly states: Int8Array;
  /** Number of lines of each kind. */
  private readonly linesOf: Int32Array;
  private readonly begins: Int8Array;
  private readonly sums: Float64Array;
  private readonly counts: Float64Array;
  /** The known times of each line. */
  private readonly opensMs: Float64Array;
  private readonly tookMs: Float64Array;
  private readonly isRow: readonly boolean[];
  private readonly longestMs: Float64Array;
  private readonly isFiled: readonly boolean[];

  constructor(
    kinds: readonly Kind[],
    timeline: readonly Occurrence[],
    times: StatedTimes,
    trains: Trains | null = null,
  ) {
    const index = new Map(kinds.map((kind, i) => [kind, i]));
    const own = timeline.filter(({ kind }) => index.has(kind)).slice(0, MAX_LINES);
    const seen = new Int32Array(kinds.length);
    this.kindAt = Int32Array.from(own, ({ kind }) => index.get(kind) ?? 0);
    this.atMs = numbersOf(own, ({ atMs }) => atMs);
    const nths = this.kindAt.map((kind) => (seen[kind] = (seen[kind] ?? 0) + 1) - 1);
    this.trainAt = Int32Array.from(own, ({ kind }, i) => trains?.of(kind, nths[i] ?? 0) ?? -1);
    this.trains = Math.max(1, trains?.names.length ?? 1);
    this.chains = {
      kind: new Int32Array(this.trains),
      state: new Int32Array(this.trains),
      atMs: new Float64Array(this.trains),
      opensMs: new Float64Array(this.trains),
    };
    this.linesOf = seen;
    this.sums = new Float64Array(kinds.length);
    this.counts = new Float64Array(kinds.length);
    const steps = own.length * this.trains;
    this.lastWays = new Array<null>(steps).fill(null);
    this.lastSeconds = new Float64Array(steps);
    this.lastOpens = new Float64Array(steps).fill(NaN);
    this.lastFit = new Float64Array(steps);
    this.states = new Int8Array(kinds.length);
    this.begins = new Int8Array(kinds.length);
    this.opensMs = numbersOf(own, ({ kind }, i) => times.opensMs.get(kind)?.[nths[i] ?? 0] ?? NaN);
    this.tookMs = numbersOf(own, ({ kind }, i) => times.tookMs.get(kind)?.[nths[i] ?? 0] ?? NaN);
    this.isRow = kinds.map((kind) => times.rows.has(kind));
    this.longestMs = numbersOf(kinds, (kind) => longestOf(times.tookMs.get(kind)));
    this.isFiled = kinds.map(hasFile);
  }

  /** How well each kind fits among the others, −0.8 to 1. @param labels the classification of each kind, by index */
  of(labels: Labels): Fits {
    const { sums, counts, states, begins } = this;
    sums.fill(0);
    counts.fill(0);
    const logged = loggedStates(labels, this.linesOf, states);
    const grammar = this.grammarOf(logged);
    // If exposures are logged at their end, stars lost during them are logged earlier.
    let loggedAtEnd = false;
    for (let kind = 0; kind < states.length; kind++) {
      const begin = BEGIN_STATE_OF[labels[kind] ?? UNTAKEN] ?? -1;
      // Rows with both ends have their own begin, whatever else reports such spans.
      const isLogged = begin >= 0 && (logged & (1 << begin)) !== 0 && this.isRow[kind] !== true;
      begins[kind] = isLogged ? -1 : begin;
      if (!isLogged && begin === OPEN) loggedAtEnd = true;
    }
    const closes = (logged & (1 << CLOSED)) !== 0;
    const stars = new LostStars(this.trains, (kind, fit) => {
      this.add(kind, fit);
    });
    const { kindAt, trainAt, trains, chains, lastWays, lastSeconds, lastOpens, lastFit } = this;
    chains.kind.fill(-1);
    chains.state.fill(-1);
    for (let i = 0; i < kindAt.length; i++) {
      const kind = kindAt[i] ?? 0;
      const state = states[kind] ?? -1;
      const label = labels[kind] ?? UNTAKEN;
      if (state < 0) {
        if (label === UNTAKEN) continue;
        if (loggedAtEnd && (label === STAR_LOST || label === STAR_FOUND)) {
          const lostMs = this.isRow[kind] === true ? (this.tookMs[i] ?? NaN) : NaN;
          stars.noted(kind, (this.atMs[i] ?? 0) - (Number.isNaN(lostMs) ? 0 : lostMs), label === STAR_LOST);
        } else this.beside(i, kind, label, closes || this.isFiled[kind] !== true);
        continue;
      }
      const atMs = this.atMs[i] ?? 0;
      const train = trainAt[i] ?? -1;
      const begin = begins[kind] ?? -1;
      const tookMs = begin >= 0 ? (this.tookMs[i] ?? NaN) : NaN;
      const isWhole = !Number.isNaN(tookMs);
      const around = this.isRow[kind] === true ? aroundFit(label, this.tookMs[i] ?? NaN, this.longestMs[kind]) : null;
      if (around !== null) {
        this.add(kind, around);
        continue;
      }
      const first = isWhole ? begin : state;
      const fromMs = atMs - (isWhole ? tookMs : 0);
      const isExposure = isWhole && first === OPEN;
      if (stars.areWaiting)
        stars.followed(isExposure ? 'exposure' : first === ABORTED ? 'abort' : 'other', fromMs, atMs);
      if (isWhole) this.add(kind, grammar.score(first, state, tookMs / 1000));
      // Mount and guider events apply to every train except those whose shutter is open meanwhile.
      const from = Math.max(0, train);
      const to = train < 0 ? trains : train + 1;
      let best = -1;
      let fit = 0;
      for (let t = from; t < to; t++) {
        let value = 0;
        if ((chains.kind[t] ?? -1) >= 0) {
          const last = chains.state[t] ?? -1;
          const seconds = (fromMs - (chains.atMs[t] ?? 0)) / 1000;
          const opensMs = chains.opensMs[t] ?? NaN;
          const isStated = last === OPEN && first === CLOSED && !Number.isNaN(opensMs);
          const ways = isStated ? AS_STATED : grammar.waysBetween(last, first);
          const at = i * trains + t;
          if (lastWays[at] !== ways || lastSeconds[at] !== seconds || (isStated && lastOpens[at] !== opensMs)) {
            lastWays[at] = ways;
            lastSeconds[at] = seconds;
            lastOpens[at] = opensMs;
            this.fit(at);
          }
          value = lastFit[at] ?? 0;
        }
        if (best < 0 || value > fit) {
          best = t;
          fit = value;
        }
      }
      if (loggedAtEnd && state === ABORTED) fit = Math.max(fit, BEGUN_UNLOGGED);
      const before = chains.kind[best] ?? -1;
      if (before >= 0) {
        sums[before] = (sums[before] ?? 0) + fit;
        sums[kind] = (sums[kind] ?? 0) + fit;
        counts[before] = (counts[before] ?? 0) + 1;
        counts[kind] = (counts[kind] ?? 0) + 1;
      }
      for (let t = from; t < to; t++) {
        if (train < 0 && t !== best && chains.state[t] === OPEN) continue;
        if (isExposure) stars.exposed(t, fromMs, atMs);
        const opensMs = state === OPEN ? (this.opensMs[i] ?? NaN) : NaN;
        // No line reports that the shutter closes: it does after the stated length.
        const isClosed = state === OPEN && !closes && !Number.isNaN(opensMs);
        chains.kind[t] = kind;
        chains.state[t] = isClosed ? CLOSED : state;
        chains.atMs[t] = isClosed ? atMs + opensMs : atMs;
        chains.opensMs[t] = opensMs;
      }
    }
    for (let kind = 0; kind < sums.length; kind++) sums[kind] = (sums[kind] ?? 0) / Math.max(1, counts[kind] ?? 0);
    return sums;
  }

  /** The cached fit of the step. @param at line and train, by number */
  private fit(at: number): void {
    const ways = this.lastWays[at] ?? AS_STATED;
    const seconds = this.lastSeconds[at] ?? 0;
    const opens = (this.lastOpens[at] ?? NaN) / 1000;
    this.lastFit[at] = ways === AS_STATED ? 1 - timeCost(seconds, opens - 1, opens + 6) : fitOf(ways, seconds);
  }

  private beside(i: number, kind: number, label: number, closes: boolean): void {
    const { chains } = this;
    const [train, atMs] = [Math.max(0, this.trainAt[i] ?? -1), this.atMs[i] ?? 0];
    if ((chains.kind[train] ?? -1) < 0) return;
    const fit = besideFit(label, chains.state[train] ?? -1, atMs - (chains.atMs[train] ?? 0), closes);
    if (!Number.isNaN(fit)) this.add(kind, fit);
  }

  private add(kind: number, value: number): void {
    this.sums[kind] = (this.sums[kind] ?? 0) + value;
    this.counts[kind] = (this.counts[kind] ?? 0) + 1;
  }

  /** @param logged the states that the log reports, one bit each */
  private grammarOf(logged: number): Grammar {
    let grammar = this.grammars.get(logged);
    if (grammar === undefined) {
      grammar = new Grammar(
        STATES.map((_, state) => (logged & (1 << state)) !== 0),
        this.ways,
      );
      this.grammars.set(logged, grammar);
    }
    return grammar;
  }
}
