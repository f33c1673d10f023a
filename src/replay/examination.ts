/**
 * One train's exposures of a run, judged by the same causes as the night's own frames. A night has hundreds of runs:
 * the input of the causes is one object, refilled for each exposure.
 */
import { isKept, type ExposureFacts, type Interval } from '../model/index.js';
import type { Conditions, GuidingSums, TrainCourse } from './course.js';
import { addEvidence, type TrainEvidence } from './evidence.js';
import type { SimulatedExposure } from './running-train.js';
import { SkyAt } from './sky-at.js';
import type { Writable } from './writable.js';

const NO_EVIDENCE: TrainEvidence = { exposures: [], sigmaArcsec: null };
/** With fewer guiding samples an exposure is not judged by guiding. */
const MIN_SAMPLES = 3;

export class Examination {
  private readonly own: TrainEvidence;
  private readonly sky: SkyAt;
  private readonly facts: Writable<ExposureFacts>;

  /** @param skyMs how much later the sky's events are */
  constructor(
    { id, pixelScaleArcsec }: TrainCourse,
    private readonly conditions: Conditions,
    private readonly skyMs: number,
  ) {
    this.own = conditions.evidence.get(id) ?? NO_EVIDENCE;
    this.sky = new SkyAt(conditions);
    this.facts = {
      lengthMs: 0,
      askedMs: 0,
      aborted: false,
      isCutOff: false,
      motionMs: 0,
      sureMotionMs: 0,
      awayMs: 0,
      unguidedMs: 0,
      sureUnguidedMs: 0,
      guidingRmsArcsec: null,
      pixelScaleArcsec,
      sky: null,
      stars: null,
      usual: null,
      displacement: null,
    };
  }

  /**
   * Whether an exposure is kept; call in chronological order.
   *
   * @param motionMs how long the mount moved
   * @param unguidedMs how long the guiding was off
   */
  passes(exposure: SimulatedExposure, motionMs: number, unguidedMs: number): boolean {
    const { facts, conditions } = this;
    const { rules, drift, guiding } = conditions;
    const lengthMs = exposure.endMs - exposure.startMs;
    // Field by field: a spread takes ten times as long.
    facts.lengthMs = lengthMs;
    facts.askedMs = lengthMs;
    facts.aborted = exposure.cut;
    facts.motionMs = motionMs;
    facts.sureMotionMs = motionMs;
    facts.unguidedMs = unguidedMs;
    facts.sureUnguidedMs = unguidedMs;
    facts.guidingRmsArcsec = guiding && rmsArcsec(exposure, guiding);
    facts.sky = this.sky.at(exposure.target, (exposure.startMs + exposure.endMs) / 2 + this.skyMs);
    addEvidence(facts, exposure, this.own, drift, rules);
    return isKept(facts, rules);
  }
}

function rmsArcsec({ startMs, endMs }: Interval, guiding: GuidingSums): number | null {
  const from = step(guiding, startMs);
  const to = step(guiding, endMs);
  // `step` stays within both. A polymorphic access takes several times as long, and this is called a million times.
  const samples = guiding.samples[to]! - guiding.samples[from]!;
  return samples < MIN_SAMPLES ? null : Math.sqrt((guiding.squares[to]! - guiding.squares[from]!) / samples);
}

function step({ startMs, stepMs, samples }: GuidingSums, atMs: number): number {
  return Math.min(samples.length - 1, Math.max(0, Math.round((atMs - startMs) / stepMs)));
}
