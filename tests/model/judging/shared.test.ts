import { describe, expect, it } from 'vitest';
import {
  interval,
  judgeFrame,
  LOSS_CAUSES,
  type Frame,
  type FrameStars,
  type JudgedFrame,
  type SkyPosition,
  type Surroundings,
} from '../../../src/model/index.js';
import type { Conditions, TrainCourse } from '../../../src/replay/course.js';
import { inOrder } from '../../../src/replay/draws.js';
import { judge } from '../../../src/replay/judge.js';
import type { SimulatedExposure } from '../../../src/replay/running-train.js';
import { light } from '../../support/events.js';
import { courseOf } from '../../replay/support.js';
import { activity, around, sky } from './around.js';
import { stars, usual } from './measured.js';

const frame = light('wren', '21:00:00', 300);
const { startMs } = frame.exposure;

/** One and the same harm, as the night has it and as a replay meets it. */
interface Case {
  readonly frame?: Partial<Frame>;
  readonly around?: Partial<Surroundings>;
  readonly train?: Partial<TrainCourse>;
  readonly exposure?: Partial<SimulatedExposure>;
  readonly conditions?: Partial<Conditions>;
}

const points = (more: Partial<SkyPosition>): Partial<Conditions> => ({
  sunLimitDeg: -12,
  curves: new Map([['NGC 281', [sky({ atMs: startMs - 1000, ...more }), sky({ atMs: startMs + 400_000, ...more })]]]),
});

/** An exposure of the night with stars of its own, and one that is replayed at its time. */
function pixels(more: Partial<FrameStars>): Case {
  const measured = stars(more);
  const own = { span: frame.exposure, motionMs: 0, unguidedMs: 0, awayMs: 0, stars: measured, usual: usual() };
  return {
    around: { stars: measured, usual: usual() },
    conditions: { evidence: new Map([['wren', { exposures: [own], sigmaArcsec: null }]]) },
  };
}

const HARMS: Readonly<Record<string, Case>> = {
  'mount-motion': {
    around: { motion: [activity('dither-move', '21:01:00', '21:01:04')] },
    conditions: { motion: [interval(startMs + 60_000, startMs + 64_000)] },
  },
  'guiding-off': {
    around: { guidingOff: [activity('star-gap', '21:01:00', '21:01:30')] },
    conditions: { guidingOff: [interval(startMs + 60_000, startMs + 90_000)] },
  },
  'cut-short': { frame: { aborted: true }, exposure: { cut: true } },
  'no-sky': pixels({ count: 0, fwhm: null, elongation: null, saturated: 1 }),
  'rough-guiding': {
    around: { guiding: { samples: 100, raRmsArcsec: 2, decRmsArcsec: 2, totalRmsArcsec: 2.83, peakArcsec: 5 } },
    train: { pixelScaleArcsec: 1.3 },
    conditions: {
      guiding: {
        startMs,
        stepMs: 300_000,
        samples: Float64Array.of(0, 100),
        squares: Float64Array.of(0, 100 * 2.83 ** 2),
      },
    },
  },
  trailed: pixels({ elongation: 1.9, agreement: 0.95 }),
  doubled: pixels({ doubled: { x: 6, y: 0, share: 0.2, significance: 30 } }),
  swollen: pixels({ fwhm: 6 }),
  dimmed: pixels({ flux: 0.2 }),
  'other-filter': pixels({ takenThrough: 'L' }),
  low: { around: { sky: sky({ altitudeDeg: 20 }) }, conditions: points({ altitudeDeg: 20 }) },
  twilight: { around: { sky: sky({ sunAltitudeDeg: -5 }) }, conditions: points({ sunAltitudeDeg: -5 }) },
};

const judged = (given: Case): Pick<JudgedFrame, 'verdict' | 'causes'> =>
  judgeFrame({ ...frame, ...given.frame }, around(given.around));

function keptInReplay({ train = {}, exposure = {}, conditions = {} }: Case): number {
  const plain = courseOf(400_000, [{ id: 'wren', exposureMs: 300_000, startMs, endMs: startMs + 400_000, ...train }]);
  const course = { ...plain, conditions: { ...plain.conditions, ...conditions } };
  const taken = { startMs, endMs: startMs + 300_000, target: 'NGC 281', cut: false, place: 0, ...exposure };
  const run = { exposures: [[taken]], waitedMs: [0], dithers: 0, motion: [], guidingOff: [] };
  return judge(course, run, inOrder).trains.wren?.keptFrames ?? NaN;
}

describe('a cause', () => {
  it('is in this list as soon as it is in the registry', () => {
    expect(Object.keys(HARMS)).toEqual(LOSS_CAUSES.map((c) => c.id));
  });

  it('is absent where nothing is wrong: the frame is kept on the night and in the replay', () => {
    expect(judged({})).toMatchObject({ verdict: 'kept', causes: [], cleared: [] });
    expect(keptInReplay({ conditions: points({}) })).toBe(1);
  });

  it.each(Object.entries(HARMS))(
    '%s speaks against a frame on the night and against the same in a replay',
    (kind, given) => {
      const { verdict, causes } = judged(given);
      expect(verdict).not.toBe('kept');
      expect(causes.map((c) => c.kind)).toEqual([kind]);
      expect(keptInReplay(given)).toBe(0);
    },
  );
});
