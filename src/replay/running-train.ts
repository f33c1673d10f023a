/** One train during a run: its rules, looked up once, and its state. */
import { itemAt, ownValue } from '../model/index.js';
import type { Absence, Block, Course, FocusRun, ReplayRules, StopShare, TrainCourse } from './course.js';
import type { Draws } from './draws.js';
import type { Writable } from './writable.js';

/** One exposure of a replayed night. */
export interface SimulatedExposure {
  readonly startMs: number;
  readonly endMs: number;
  readonly target?: string;
  readonly filter?: string;
  readonly cut: boolean;
  /** Dithers before it: frames at one position share the number. */
  readonly place: number;
}

/** Discarded exposures of a run, to be reused: a night has hundreds of runs. */
export type SpentExposures = readonly Writable<SimulatedExposure>[];

export class RunningTrain {
  readonly exposures: Writable<SimulatedExposure>[] = [];
  readonly isAwaited: boolean;
  readonly isAwaitedToStart: boolean;
  readonly ownCount: number | undefined;
  readonly patienceMs: number;
  readonly restsInPauses: boolean;
  freeMs: number;
  /** When it began waiting for others; `null` while it does not. */
  waitingSinceMs: number | null = null;
  waitedMs = 0;
  /** Rests until `freeMs` for its own reasons: nobody waits for it. */
  absent = false;
  done = false;
  sinceDither = 0;
  private readonly mostPauseMs: number;
  private readonly focusRuns: readonly FocusRun[];
  private readonly absences: readonly Absence[];
  private readonly setExposureMs: number | undefined;
  private readonly filterExposureMs: Readonly<Record<string, number>>;
  /** How each stop concerns it. */
  private readonly shares: readonly (StopShare | undefined)[];
  /** Filter change before each block, ms, where filters come in rows; absent: as it was. */
  private readonly changesMs: readonly number[] | undefined;
  private block = 0;
  /** Exposure time left of the block. */
  private leftMs: number;
  private nextFocus = 0;
  private nextAbsence = 0;

  constructor(
    readonly course: TrainCourse,
    readonly index: number,
    night: Course,
    rules: ReplayRules,
    private readonly spent: SpentExposures = [],
  ) {
    const { id } = course;
    this.isAwaited = rules.awaited.includes(id);
    this.isAwaitedToStart = night.awaitedToStart.includes(id);
    this.ownCount = ownValue(rules.ownCount, id);
    this.patienceMs = ownValue(rules.patienceMs, id) ?? 0;
    this.restsInPauses = night.restsInPauses.includes(id);
    this.mostPauseMs = ownValue(rules.mostPauseMs, id) ?? Infinity;
    const how = ownValue(rules.refocus, id);
    const leftOut = how === undefined ? null : how === 'offsets' ? 'filter-change' : 'needless';
    this.focusRuns = course.focusRuns.filter(({ why }) => why !== leftOut);
    const isNeverIdle = rules.neverIdle?.includes(id) === true;
    this.absences = isNeverIdle ? course.absences.filter(({ isHold }) => isHold === true) : course.absences;
    this.setExposureMs = ownValue(rules.exposureMs, id);
    this.filterExposureMs = ownValue(rules.filterExposureMs, id) ?? {};
    const row = ownValue(rules.filterRows, id);
    this.changesMs = row === undefined ? undefined : changesInRows(course.blocks, row);
    this.shares = night.stops.map((stop) => ownValue(stop.trains, id));
    this.freeMs = ownValue(rules.startMs, id) ?? course.startMs;
    this.leftMs = this.budgetMs();
  }

  /** Exposure of the next frame, ms. */
  get exposureMs(): number {
    const block = this.course.blocks[this.block];
    const ofFilter = block?.filter === undefined ? undefined : ownValue(this.filterExposureMs, block.filter);
    return ofFilter ?? this.setExposureMs ?? block?.exposureMs ?? 1000;
  }

  /** The next refocus, due or not. */
  get focusRun(): FocusRun | undefined {
    return this.focusRuns[this.nextFocus];
  }

  shareOf(stop: number): StopShare | undefined {
    return this.shares[stop];
  }

  /**
   * Whether others who wait since `sinceMs` still wait for it: it is busy, and neither done, absent nor yet to begin.
   */
  isMissed(sinceMs: number): boolean {
    return (
      this.waitingSinceMs === null &&
      !this.done &&
      !(this.absent && this.freeMs > sinceMs) &&
      (this.isAwaitedToStart || !this.isYetToBegin(sinceMs))
    );
  }

  isYetToBegin(atMs: number): boolean {
    return this.exposures.length === 0 && this.freeMs > atMs;
  }

  /** Ends a wait, at the instant at which the train is free again. */
  release(atMs: number): void {
    this.waitingSinceMs = null;
    this.absent = false;
    this.freeMs = atMs;
  }

  /** Whether the next refocus is due, and at its position. */
  isFocusDue(ditherEvery: number | null): boolean {
    const run = this.focusRun;
    if (run === undefined) return false;
    const { place } = run;
    if (typeof place === 'object') return this.comingBlock >= place.beforeBlock;
    if (this.freeMs < run.dueMs) return false;
    return place === undefined || ditherEvery === null || !this.isAwaited || this.sinceDither === 0;
  }

  /** Begins an absence that is due; whether there was one. */
  beginAbsence(): boolean {
    const absence = this.absences[this.nextAbsence];
    if (!absence || this.freeMs < absence.dueMs) return false;
    this.nextAbsence++;
    if (absence.untilMs > this.freeMs) {
      this.freeMs = absence.untilMs;
      this.absent = absence.isAwaited !== true;
    }
    return true;
  }

  finishFocus(): void {
    this.nextFocus++;
  }

  /** Advances to the next block, with its filter change, if this one is done. */
  enterBlock(): void {
    while (this.leftMs <= 0 && this.block < this.course.blocks.length - 1) {
      this.block++;
      this.leftMs += this.budgetMs();
      this.freeMs +=
        this.changesMs === undefined
          ? itemAt(this.course.blocks, this.block).filterMs
          : itemAt(this.changesMs, this.block);
    }
  }

  /**
   * Exposes once, with the filter change before it.
   *
   * @param holdMs when a stop comes that cuts open shutters; ∞ for none
   * @param place dithers so far
   */
  expose(holdMs: number, draws: Draws, place: number): void {
    this.enterBlock();
    const startMs = this.freeMs;
    const askedMs = this.exposureMs;
    const cutMs = this.cutMs(startMs, startMs + askedMs, holdMs);
    const endMs = cutMs ?? startMs + askedMs;
    const drawnMs = draws.take(this.course.turnarounds, 'turnaround', this.index, this.exposures.length);
    const turnaroundMs = Math.min(drawnMs, this.mostPauseMs);
    const { target, filter } = this.course.blocks[this.block] ?? {};
    const exposure: Writable<SimulatedExposure> = this.spent[this.exposures.length] ?? {
      startMs,
      endMs,
      target,
      filter,
      cut: false,
      place,
    };
    exposure.startMs = startMs;
    exposure.endMs = endMs;
    exposure.target = target;
    exposure.filter = filter;
    exposure.cut = cutMs !== null;
    exposure.place = place;
    this.exposures.push(exposure);
    this.sinceDither++;
    this.leftMs -= askedMs;
    this.freeMs = cutMs ?? endMs + turnaroundMs;
  }

  /** Continues in the plan at the destination of a change of target. */
  goTo({ block, framesDone }: NonNullable<StopShare['anchor']>): void {
    this.block = block;
    this.leftMs = this.budgetMs() - framesDone * itemAt(this.course.blocks, block).exposureMs;
  }

  /** The instant at which a stop or an absence of its own cuts an exposure short, or `null`. */
  private cutMs(startMs: number, endMs: number, holdMs: number): number | null {
    if (holdMs > startMs && holdMs < endMs) return holdMs;
    const own = this.absences[this.nextAbsence]?.cutMs;
    return own !== undefined && own > startMs && own < endMs ? own : null;
  }

  /** The block that the next exposure belongs to. */
  private get comingBlock(): number {
    return this.leftMs <= 0 ? Math.min(this.block + 1, this.course.blocks.length - 1) : this.block;
  }

  /** Exposure time of the plan's block, ms. */
  private budgetMs(): number {
    const { frames, exposureMs } = this.course.blocks[this.block] ?? { frames: 0, exposureMs: 0 };
    return frames * exposureMs;
  }
}

/** What the wheel takes before each block, ms, where so many frames at the least share a filter. */
function changesInRows(blocks: readonly Block[], row: number): number[] {
  let since = 0;
  return blocks.map(({ filterMs, frames }) => {
    const isKept = filterMs > 0 && since >= row;
    since = isKept ? frames : since + frames;
    return isKept ? filterMs : 0;
  });
}
