import {
  applyCause,
  interval,
  NO_LEEWAY,
  type Activity,
  type ActivityKind,
  type Cause,
  type Frame,
  type LossCause,
  type SkyPosition,
  type Surroundings,
} from '../../../src/model/index.js';
import { activityOf, type More } from '../../support/activities.js';
import { at } from '../../support/events.js';
import { RULES, TRAINS } from '../../account/random-night.js';

/** Surroundings in which nothing is wrong, but for what is given. */
export function around(more: Partial<Surroundings> = {}): Surroundings {
  return {
    motion: [],
    guidingOff: [],
    guiding: null,
    sky: null,
    train: TRAINS[1]!,
    rules: RULES,
    darkness: 'nautical',
    stars: null,
    usual: null,
    displacement: null,
    leeway: NO_LEEWAY,
    ...more,
  };
}

export function activity<K extends ActivityKind>(kind: K, from: string, to: string, more: More<K> = {}): Activity {
  return activityOf(kind, interval(at(from), at(to)), { sources: [{ file: 'logs/heron.jsonl', line: 7 }], ...more });
}

export function sky(more: Partial<SkyPosition>): SkyPosition {
  return {
    atMs: at('21:00:00'),
    altitudeDeg: 60,
    azimuthDeg: 90,
    airmass: 1.15,
    moonAltitudeDeg: -10,
    moonSeparationDeg: 80,
    moonIllumination: 0.2,
    moonPhaseAngleDeg: 120,
    sunAltitudeDeg: -30,
    limitDeg: 25,
    ...more,
  };
}

/** What one cause says against a frame. */
export function causesBy(cause: LossCause, frame: Frame, surroundings: Surroundings): readonly Cause[] {
  return applyCause(cause, frame, surroundings).causes;
}
