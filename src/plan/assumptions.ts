/** The basis of a plan, in sentences. */
import { decimal, MOON_DISTANCE_DEG, type Plan } from '../model/index.js';
import {
  FILTER_CHANGE_MS,
  FILTER_EFFORT_HOURS,
  FLIP_MS,
  REFOCUS_EVERY_MS,
  TARGET_CHANGE_MS,
  TARGET_EFFORT_HOURS,
} from './practice.js';
import { MOST_TARGETS } from './promising.js';
import type { PlanTrain } from './question.js';

interface Basis {
  readonly sunBelowDeg: number;
  /** `null`: a horizon of its own. */
  readonly limitDeg: number | null;
  readonly broadbandMoonMag: number;
  /** Median of the archive's dithers; `null` where none was recorded. */
  readonly ditherSeconds: number | null;
  /** Whether more targets need hours than a night is planned with. */
  readonly isCrowded: boolean;
  readonly trains: readonly PlanTrain[];
  /** Which trains these are. */
  readonly whichTrains: string;
}

const HOUR_MS = 3_600_000;

const minutes = (ms: number): string => `${decimal(ms / 60_000, 0)} min`;

/** The sentences. */
export function assumptionsOf(basis: Basis): Plan['assumptions'] {
  const { sunBelowDeg, limitDeg, broadbandMoonMag, ditherSeconds, isCrowded, trains, whichTrains } = basis;
  const kept = trains.map(({ id, keptShare }) => `${id} ${decimal(keptShare * 100, 0)} %`).join(', ');
  return [
    'Every night is planned as if it were clear and for the most value in itself; the next one starts from the ' +
      'goals it leaves.' +
      (isCrowded ? ` Only the ${MOST_TARGETS} targets that promise most in some part of a night are considered.` : ''),
    whichTrains,
    `Darkness: Sun below ${decimal(sunBelowDeg, 0)}°, for broadband below −18°. Targets above ` +
      `${limitDeg === null ? 'the local horizon' : `${decimal(limitDeg, 0)}°`}.`,
    `Broadband while the Moon brightens the sky by no more than ${decimal(broadbandMoonMag, 1)} mag, and ` +
      `${MOON_DISTANCE_DEG.broad}° or more from a full one; narrow bands ${MOON_DISTANCE_DEG.blueLine}°, deep red ` +
      `lines ${MOON_DISTANCE_DEG.redLine}°, less from a smaller one (common practice, no source).`,
    `Clock time, less what past nights lost: exposure kept: ${kept}; a dither takes ` +
      (ditherSeconds === null ? '25 s (none is on record)' : `${decimal(ditherSeconds, 0)} s (median of the archive)`) +
      '.',
    `A change of target takes ${minutes(TARGET_CHANGE_MS)}, of a filter ${minutes(FILTER_CHANGE_MS)}, a flip ` +
      `${minutes(FLIP_MS)}; focus after each change and every ${minutes(REFOCUS_EVERY_MS)} (common practice, no ` +
      'source).',
    'A change must also gain more than the time it takes: a filter change ' +
      `${minutes(FILTER_EFFORT_HOURS * HOUR_MS)} or more, a target change ` +
      `${minutes(TARGET_EFFORT_HOURS * HOUR_MS)} or ` +
      'more through its best filter.',
    'A filter stays on for an hour or more, unless its goal needs less, no other can be used, or much would be ' +
      'given up for it. A train that would idle takes extra depth, beyond the goal.',
    'Sub lengths are those that a train has used most through a filter. A dither waits until the shutters of ' +
      'all trains are closed.',
  ];
}
