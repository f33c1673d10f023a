/** Exposures that a train's log begins without a file of that train, and whether lights of another are these. */
import { itemAt, partitionPoint, type DatedLight, type TellingEvent } from '../model/index.js';
import { filterSpelt, fold } from '../vocabulary/index.js';

/** A light's header and its log line are written within this, ms, or this share of its length. As for frames. */
const LEAST_MS = 3000;
const MOST_MS = 10_000;
const LENGTH_SHARE = 0.1;
/** Stated lengths of one exposure differ by less than this share. Common practice, no source. */
const LENGTHS_ALIKE = 0.2;
/** Stated focal lengths and pixel sizes of one train differ by less than this share. Common practice, no source. */
const OPTICS_ALIKE = 0.1;

interface Exposure {
  readonly atMs: number;
  readonly seconds?: number;
  readonly filter?: string;
}

/** What a train's log begins without a file of its own. */
export class Begun {
  private readonly exposures: readonly Exposure[];
  private readonly nameOf: (filter: string) => string;

  /**
   * @param events the train's, in any order
   * @param lights the train's own
   * @param aliases names of filters by the rig file
   */
  constructor(
    events: readonly TellingEvent[],
    private readonly lights: readonly DatedLight[],
    aliases: Readonly<Record<string, string>>,
  ) {
    const own = new Map(Object.entries(aliases).map(([alias, name]) => [fold(alias), name]));
    this.nameOf = (filter) => fold(own.get(fold(filter)) ?? filterSpelt(filter) ?? filter);
    const begins = lights.map(({ exposure }) => exposure.startMs).sort((a, b) => a - b);
    this.exposures = begunIn(events).filter(({ atMs, seconds }) => !hasNear(begins, atMs, toleranceMs(seconds)));
  }

  /** Whether one of these lights and one of the train's own were exposed at once: two cameras. */
  meets(lights: readonly DatedLight[]): boolean {
    const own = [...this.lights].sort((a, b) => a.exposure.startMs - b.exposure.startMs);
    return lights.some(({ exposure }) => {
      const next = partitionPoint(own, (light) => light.exposure.startMs >= exposure.endMs - MOST_MS);
      return next > 0 && itemAt(own, next - 1).exposure.endMs > exposure.startMs + MOST_MS;
    });
  }

  /** How many of these lights are one of the exposures each: by begin, length and filter. */
  countOf(lights: readonly DatedLight[]): number {
    const taken = new Set<Exposure>();
    for (const light of lights) {
      const { startMs } = light.exposure;
      const nearMs = toleranceMs(light.exposureSeconds);
      const from = partitionPoint(this.exposures, ({ atMs }) => atMs >= startMs - nearMs);
      for (let i = from; i < this.exposures.length; i++) {
        const one = itemAt(this.exposures, i);
        if (one.atMs > startMs + nearMs) break;
        if (taken.has(one) || !this.isAlike(light, one)) continue;
        taken.add(one);
        break;
      }
    }
    return taken.size;
  }

  private isAlike(light: DatedLight, { seconds, filter }: Exposure): boolean {
    return (
      isNear(light.exposureSeconds, seconds, LENGTHS_ALIKE) &&
      (light.filter === undefined || filter === undefined || this.nameOf(light.filter) === this.nameOf(filter))
    );
  }
}

/** Whether lights of two trains can be of one camera on one telescope: no stated fact contradicts it. */
export function sameCamera(some: readonly DatedLight[], others: readonly DatedLight[]): boolean {
  const [one] = some;
  const [other] = others;
  if (one === undefined || other === undefined) return false;
  return (
    isNear(one.focalLengthMm, other.focalLengthMm, OPTICS_ALIKE) &&
    isNear(one.pixelSizeUm, other.pixelSizeUm, OPTICS_ALIKE) &&
    isNear(unbinned(one, one.width, 'x'), unbinned(other, other.width, 'x'), OPTICS_ALIKE) &&
    isNear(unbinned(one, one.height, 'y'), unbinned(other, other.height, 'y'), OPTICS_ALIKE)
  );
}

function unbinned(light: DatedLight, pixels: number | undefined, side: 'x' | 'y'): number | undefined {
  return pixels === undefined ? undefined : pixels * (light.binning?.[side] ?? 1);
}

/** What is not stated contradicts nothing. */
function isNear(a: number | undefined, b: number | undefined, share: number): boolean {
  return a === undefined || b === undefined || Math.abs(a - b) <= share * Math.max(a, b);
}

function toleranceMs(seconds: number | undefined): number {
  return seconds === undefined ? LEAST_MS : Math.min(MOST_MS, Math.max(LEAST_MS, seconds * 1000 * LENGTH_SHARE));
}

function hasNear(sorted: readonly number[], atMs: number, nearMs: number): boolean {
  const next = sorted[partitionPoint(sorted, (ms) => ms >= atMs - nearMs)];
  return next !== undefined && next <= atMs + nearMs;
}

/** By begins; by ends and lengths where a log states no begins. Sorted. */
function begunIn(events: readonly TellingEvent[]): Exposure[] {
  const sorted = [...events].sort((a, b) => a.atMs - b.atMs);
  const byEnds = !sorted.some(({ event }) => event === 'exposure-begin');
  let filter: string | undefined;
  return sorted.flatMap((event): Exposure[] => {
    if (event.event === 'filter-begin' || event.event === 'filter-end') filter = event.to ?? filter;
    if (event.event === 'exposure-begin') {
      filter = event.filter ?? filter;
      return [{ atMs: event.atMs, seconds: event.seconds, filter }];
    }
    return byEnds && event.event === 'exposure-end' && event.seconds !== undefined
      ? [{ atMs: event.atMs - event.seconds * 1000, seconds: event.seconds, filter: event.filter ?? filter }]
      : [];
  });
}
