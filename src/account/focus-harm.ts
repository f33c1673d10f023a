/** For each light the refocus before it, if that made the stars larger: what swollen stars are laid to. */
import {
  FOCUS_GROWTH,
  groupBy,
  ownValue,
  partitionPoint,
  worseFocuses,
  type Activity,
  type Frame,
  type NightStars,
  type SizedExposure,
  type SkyPosition,
  type WorseFocus,
} from '../model/index.js';

/**
 * @param lights sorted by start
 * @returns the last refocus of the frame's train, if it did harm
 */
export function focusHarm(input: {
  readonly lights: readonly Frame[];
  readonly activities: readonly Activity[];
  readonly stars: Pick<NightStars, 'frames'> | null;
  readonly positions: Readonly<Record<string, SkyPosition>>;
}): (frame: Frame) => WorseFocus | undefined {
  const runsOf = groupBy(
    input.activities.filter((a) => a.kind === 'focus'),
    ({ train }) => train,
  );
  const trains = new Map(
    [...groupBy(input.lights, ({ train }) => train)].map(([train, lights]) => {
      const runs = [...(runsOf.get(train) ?? [])].sort((a, b) => a.span.startMs - b.span.startMs);
      const sized = lights.flatMap((frame): SizedExposure[] => {
        const size = ownValue(input.stars?.frames, frame.id)?.fwhm;
        if (size == null) return [];
        const airmass = Math.max(1, ownValue(input.positions, frame.id)?.airmass ?? 1);
        return [{ ...frame, size, zenith: size / airmass ** 0.6 }];
      });
      return [train, { runs, worse: new Map(worseFocuses(runs, sized, FOCUS_GROWTH).map((w) => [w.run, w])) }] as const;
    }),
  );
  return (frame) => {
    const own = trains.get(frame.train);
    if (own === undefined || own.worse.size === 0) return undefined;
    const since = partitionPoint(own.runs, ({ span }) => span.endMs > frame.exposure.startMs + 1000);
    const last = own.runs[since - 1];
    return last && own.worse.get(last);
  };
}
