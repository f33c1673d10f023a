/**
 * Random nights for property tests: any frames and activities, however absurd, on a small scale of time.
 */
import fc from 'fast-check';
import {
  DEFAULT_RULES,
  interval,
  type Activity,
  type ActivityKind,
  type Frame,
  type GuidingSeries,
  type Interval,
  type Rules,
  type Train,
} from '../../src/model/index.js';

export const TRAINS: readonly Train[] = [
  { id: 'heron', role: 'pilot', pixelScaleArcsec: 1.6 },
  { id: 'wren', role: 'companion', pixelScaleArcsec: 1.3 },
];
export const RULES: Rules = DEFAULT_RULES;

const KINDS: readonly ActivityKind[] = [
  'slew',
  'centre',
  'flip',
  'dither-move',
  'settling',
  'guiding-start',
  'guiding-on',
  'guiding-rest',
  'star-gap',
  'guiding-stopped',
  'readout',
  'focus',
  'filter',
  'dither-ready',
  'hold',
];

const span = (maxLengthMs: number): fc.Arbitrary<Interval> =>
  fc
    .tuple(fc.integer({ min: 0, max: 2_000_000 }), fc.integer({ min: 0, max: maxLengthMs }))
    .map(([s, l]) => interval(s, s + l));

const trainId = fc.constantFrom('heron', 'wren');

const activity: fc.Arbitrary<Activity> = fc
  .record({
    kind: fc.constantFrom(...KINDS),
    span: span(200_000),
    owner: fc.option(trainId, { nil: undefined }),
    causedBy: fc.option(trainId, { nil: undefined }),
  })
  .map(({ kind, span: s, owner, causedBy }) => {
    const own = kind === 'readout' || kind === 'focus' || kind === 'filter' || kind === 'dither-ready';
    return {
      kind,
      span: s,
      train: own ? (owner ?? 'heron') : undefined,
      causedBy,
      certainty: 'measured' as const,
      sources: [{ file: 'log', line: 1 }],
    };
  });

const frame = fc
  .record({
    train: trainId,
    exposure: span(400_000),
    kind: fc.constantFrom('light', 'light', 'light', 'dark', 'flat'),
    target: fc.constantFrom('NGC 281', 'M 33', undefined),
    filter: fc.constantFrom('Ha', 'L', undefined),
    aborted: fc.boolean(),
    askedMs: fc.option(fc.integer({ min: 0, max: 400_000 }), { nil: undefined }),
  })
  .map(
    (f): Omit<Frame, 'id'> => ({
      ...f,
      kind: f.kind as Frame['kind'],
      aborted: f.aborted || undefined,
      provenance: 'file-only',
      sources: [],
    }),
  );

const guiding: fc.Arbitrary<GuidingSeries | null> = fc.option(
  fc
    .array(
      fc.tuple(
        fc.integer({ min: 0, max: 2_400_000 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
      ),
      { maxLength: 60 },
    )
    .map((rows) => {
      const sorted = rows.sort((a, b) => a[0] - b[0]);
      return {
        atMs: Float64Array.from(sorted, (r) => r[0]),
        raArcsec: Float64Array.from(sorted, (r) => r[1]),
        decArcsec: Float64Array.from(sorted, (r) => r[2]),
        snr: new Float64Array(sorted.length).fill(NaN),
        sources: [],
      };
    }),
  { nil: null },
);

/** A night of anything. */
export const randomNight = fc
  .record({
    frames: fc.array(frame, { maxLength: 25 }),
    activities: fc.array(activity, { maxLength: 40 }),
    window: span(2_400_000),
    guiding,
  })
  .map((n) => ({
    window: n.window,
    guiding: n.guiding,
    frames: n.frames
      .map((f, i): Frame => ({ ...f, id: `f${i}` }))
      .sort((a, b) => a.exposure.startMs - b.exposure.startMs),
    activities: [...n.activities].sort((a, b) => a.span.startMs - b.span.startMs),
    trains: TRAINS,
    rules: RULES,
    darkness: 'nautical' as const,
    positions: {},
    clocks: [],
    stars: null,
  }));
