/** A few darks, flats and bias frames of a scenario's cameras: enough for some lights to be covered and some not. */
import { createHash } from 'node:crypto';
import { interval } from '../../../src/model/index.js';
import type { Scenario } from '../generator/scenario.js';

/** Headers, taken in the afternoon before the night. */
export function calibrationOf({ trains, begin }: Scenario) {
  const [first, second] = trains;
  const noonMs = Date.parse(begin) - 3 * 3_600_000;
  const sets = [
    ...(first
      ? ([
          [first.id, 'dark', 20, first.plan[0]?.seconds ?? 180, undefined],
          [first.id, 'bias', 30, 0.001, undefined],
          [first.id, 'flat', 15, 2.5, 'Ha'],
          [first.id, 'flat', 15, 2.5, 'OIII'],
        ] as const)
      : []),
    ...(second ? ([[second.id, 'flat', 12, 1.4, 'L']] as const) : []),
  ];
  let atMs = noonMs;
  return sets.flatMap(([train, kind, count, seconds, filter]) =>
    Array.from({ length: count }, (_, index) => {
      const name = `${train}-${kind}-${filter ?? 'x'}-${index + 1}`;
      const exposure = interval(atMs, atMs + Math.round(seconds * 1000));
      atMs = exposure.endMs + 500;
      return {
        file: `calibration/${train}/${name}.fits`,
        sizeBytes: 5760,
        headerHash: hashOf(name),
        train,
        ...(kind === 'flat' ? { kind, filter } : { kind }),
        exposure,
        exposureSeconds: seconds,
        gain: 100,
        offset: 50,
        binning: { x: 1, y: 1 },
        sensorTemperatureC: -10,
        setTemperatureC: -10,
      };
    }),
  );
}

/** A hash for a file of that name: each has another. */
export function hashOf(name: string): string {
  return createHash('sha256').update(name).digest('hex');
}
