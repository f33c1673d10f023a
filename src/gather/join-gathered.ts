/**
 * What several sessions of one night gathered, as one.
 */
import { distinctBy, groupBy, mergeGuiding, type GatheredNight, type Train, type Warning } from '../model/index.js';

/**
 * Joins what sessions of one night gathered. Rules and darkness are the first's; otherwise each adds what the previous
 * ones lack.
 *
 * @param sessions the most trusted first
 * @param trains ids of the trains that count
 * @throws RangeError for no session at all
 */
export function joinGathered(sessions: readonly GatheredNight[], trains: readonly string[]): GatheredNight {
  const [first] = sessions;
  if (first === undefined) throw new RangeError('a night needs at least one session');
  const counts = ({ id }: { readonly id: string }): boolean => trains.includes(id);
  return {
    ...first,
    site: sessions.find((s) => s.site !== null)?.site ?? null,
    darkSkyMagArcsec2: sessions.find((s) => s.darkSkyMagArcsec2 !== undefined)?.darkSkyMagArcsec2,
    referenceSubSeconds: sessions.find((s) => s.referenceSubSeconds !== undefined)?.referenceSubSeconds,
    trains: onePilot(joinTrains(sessions.flatMap((s) => s.trains.filter(counts)))),
    cameras: distinctBy(
      sessions.flatMap((s) => s.cameras.filter(counts)),
      ({ id }) => id,
    ),
    guideSource: sessions.find((s) => s.guideSource.source !== 'unknown')?.guideSource ?? first.guideSource,
    goals: distinctBy(
      sessions.flatMap((s) => s.goals),
      ({ name }) => name.toLowerCase(),
    ),
    guiding: mergeGuiding(sessions.flatMap((s) => s.guiding ?? [])),
    inputs: distinctBy(
      sessions.flatMap((s) => s.inputs),
      ({ role, file, sha256 }) => JSON.stringify([role, file, sha256]),
    ),
    warnings: distinctBy(
      sessions.flatMap((s) => s.warnings),
      ({ code, message, source }: Warning) => JSON.stringify([code, message, source]),
    ),
  };
}

/** A train is described by the first session that knows it; the others fill gaps. */
function joinTrains(trains: readonly Train[]): Train[] {
  return [...groupBy(trains, ({ id }) => id).values()].flatMap((alike) => {
    const [first] = alike;
    if (first === undefined) return [];
    const known = <K extends keyof Train>(key: K): Train[K] | undefined =>
      alike.find((train) => train[key] !== undefined)?.[key];
    return [
      {
        ...first,
        focalLengthMm: known('focalLengthMm'),
        apertureMm: known('apertureMm'),
        pixelSizeUm: known('pixelSizeUm'),
        pixelScaleArcsec: known('pixelScaleArcsec'),
      },
    ];
  });
}

/** One mount is steered by one computer: the first pilot is it, and comes first. */
function onePilot(trains: readonly Train[]): Train[] {
  const pilot = trains.find(({ role }) => role === 'pilot');
  return [
    ...trains.filter((train) => train === pilot),
    ...trains.filter((train) => train !== pilot).map((train): Train => ({ ...train, role: 'companion' })),
  ];
}
