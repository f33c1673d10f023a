/**
 * The nights of an archive for sharing. Hours of darkness reveal a site, many exact ones to the street, and rounded
 * ones over a season nearly as well. So nothing of the sky computed for the site is shared: darkness is that of the
 * middle of a square of ten degrees, and whatever is derived from these nights, however often, reveals only the square.
 */
import { hull, interval, siteKeys, type ArchivedSite, type NightSummary } from './model/index.js';
import { squareOf } from './record/index.js';
import { darkStretches, makeSkyObserver, nightSpan, nightZone } from './sky/index.js';

/** The trains' results are given in steps of ten minutes. */
const STEP_MS = 10 * 60_000;

const toStep = (ms: number): number => Math.round(ms / STEP_MS) * STEP_MS;

/** Nights to be shared, and the places they count for. */
export interface SharedNights {
  readonly nights: readonly NightSummary[];
  /** The same text for nights of one true site, `null` where none is known. */
  readonly siteKey: (night: NightSummary) => string | null;
}

/** The nights without anything that reveals their site or their files; times count from the begin of darkness. */
export function shareNights(nights: readonly NightSummary[]): SharedNights {
  const keys = siteKeys(nights.map(({ site }) => site));
  // Two records of one site may differ by some kilometres, with the edge of a square between them.
  const squares = new Map<string, ArchivedSite>();
  const shared = nights.map((night, i) => {
    const key = keys[i];
    if (night.site === null || key == null) return sharedNight(night, null);
    const square = squares.get(key) ?? middleOfSquare(night.site);
    squares.set(key, square);
    return sharedNight(night, {
      ...square,
      minimumAltitudeDeg: night.site.minimumAltitudeDeg,
      darkness: night.site.darkness,
    });
  });
  const keyOf = new Map(shared.map((night, i) => [night, keys[i] ?? null] as const));
  return { nights: shared, siteKey: (night) => keyOf.get(night) ?? null };
}

/** A horizon of walls and trees is a fingerprint: it stays at home. The zone follows from the square. */
function middleOfSquare({ latitudeDeg, longitudeDeg, elevationM, darkness }: ArchivedSite): ArchivedSite {
  const square = squareOf({ latitudeDeg, longitudeDeg, elevationM });
  return { ...square, name: null, timezone: nightZone(undefined, square.longitudeDeg), horizon: [], darkness };
}

function sharedNight(night: NightSummary, site: ArchivedSite | null): NightSummary {
  const dark = site && night.isDarkness ? darknessAt(site, night.date) : null;
  const beginMs = dark?.startMs ?? Date.parse(`${night.date}T00:00:00Z`);
  const usedMs = night.used === null ? null : toStep(night.used.endMs - night.used.startMs);
  const used = usedMs === null ? null : interval(beginMs, beginMs + usedMs);
  return {
    ...night,
    file: '',
    report: null,
    site,
    isDarkness: dark !== null,
    window: dark ?? used ?? interval(beginMs, beginMs),
    used,
    // All accounts together are the length of the true darkness.
    trains: night.trains.map((train) => ({ ...train, accountsMs: { kept: toStep(train.accountsMs.kept ?? 0) } })),
  };
}

function darknessAt(site: ArchivedSite, date: string): ReturnType<typeof hull> {
  const observer = makeSkyObserver({ ...site, name: '', minimumAltitudeDeg: 0 });
  return hull(darkStretches(observer, nightSpan(date, nightZone(site.timezone, site.longitudeDeg)), site.darkness));
}
