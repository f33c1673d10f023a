/** The summary of a record: everything that the progress of many nights needs. */
import {
  DEFAULT_DARKNESS,
  groupBy,
  halfTurnDeg,
  interval,
  isKeyOf,
  itemAt,
  textsKey,
  median,
  numbersOf,
  totalIntegration,
  TWILIGHTS,
  UNNAMED,
  type Account,
  type ArchivedSite,
  type Counting,
  type DarknessKind,
  type Interval,
  type NightSummary,
  type PairSummary,
  type SubsTaken,
  type TrainSummary,
  ownValue,
} from '../../model/index.js';
import { goalsOf } from '../goals.js';
import type { FrameRecord, NightRecord } from '../schema.js';
import type { RecordFile } from './files.js';

/** Summarises a night's record. Totals are computed from the frames, not taken from the record. */
export function summarise({ file, record }: RecordFile, counting: Counting = 'clock'): NightSummary {
  const isFixed = fixedReference(record);
  const effectiveMs = (frame: FrameRecord): number | null => {
    const ms = measuredEffectiveMs(frame);
    return ms !== null && isFixed(frame) ? ms : null;
  };
  const beginsMs = beginsOf(record);
  return {
    file,
    date: record.night,
    site: siteOf(record),
    window: windowOf(record),
    isDarkness: record.window.kind !== 'activity',
    used: usedSpan(record, beginsMs),
    trains: trainsOf(record, beginsMs),
    targets: record.targets.map((t) => ({ name: t.name, aliases: t.aliases ?? [], raDeg: t.ra, decDeg: t.dec })),
    goals: goalsOf(record),
    totals: totalIntegration(record.frames, {
      lengthMs,
      keptMs: (frame) => (counting === 'effective' ? effectiveMs(frame) : null) ?? lengthMs(frame),
      unnamed: '',
    }),
    pairs: pairsOf(record),
    subs: subsOf(record),
    ditherMs: middle(
      record.dithers.map(({ moveSeconds, settleSeconds }) => (moveSeconds + (settleSeconds ?? 0)) * 1000),
    ),
    keptWithoutEffective: record.frames.filter((f) => f.verdict === 'kept' && effectiveMs(f) === null).length,
    effectiveReference: referenceOf(record),
    headersOnly: record.headersOnly,
    report: record.archive?.report ?? null,
  };
}

/** UTC ms of each frame's begin. */
function beginsOf({ frames }: NightRecord): Float64Array {
  return numbersOf(frames, ({ begin }) => Date.parse(begin));
}

const lengthMs = ({ seconds }: FrameRecord): number => Math.round(seconds * 1000);

/** What the record's effective seconds are counted in; `null` where it has none. */
function referenceOf({ referenceSub, darkSky, totals }: NightRecord): NightSummary['effectiveReference'] {
  if (referenceSub === undefined || darkSky === undefined) return null;
  const skies = totals.flatMap(({ train, filter, effectiveBasis: basis }) =>
    basis?.zenithFrom === 'rig-file' && basis.zenithSky != null
      ? [[textsKey(train, filter), basis.zenithSky] as const]
      : [],
  );
  return {
    subSeconds: referenceSub,
    darkSkyMagArcsec2: darkSky.magnitude,
    ...(skies.length > 0 ? { zenithSkies: Object.fromEntries(skies) } : {}),
  };
}

/**
 * Whether a frame is counted under a zenith sky that is the same on all nights. Levels relative to a night's own
 * darkest sky do not account for differences between nights, and the total says so.
 */
function fixedReference({ totals }: NightRecord): (frame: FrameRecord) => boolean {
  const own = new Set(
    totals.flatMap(({ target, filter, train, effectiveRange }) =>
      effectiveRange?.doubts.includes('sky-of-nights') ? [textsKey(target, filter, train)] : [],
    ),
  );
  return ({ target, filter, train }) => !own.has(textsKey(target ?? UNNAMED, filter ?? UNNAMED, train));
}

/**
 * A frame's effective time if sky and air were measured; else `null`: a model of a clear sky does not count towards a
 * goal.
 */
function measuredEffectiveMs({ effectiveSeconds, effectiveFrom }: FrameRecord): number | null {
  return effectiveFrom === 'measured' && effectiveSeconds != null ? Math.round(effectiveSeconds * 1000) : null;
}

/** A record's window, UTC ms. */
function windowOf({ window }: NightRecord): Interval {
  const startMs = Date.parse(window.start);
  return interval(startMs, Math.max(startMs, Date.parse(window.end)));
}

/** Of a pair's targets the one with most matched stars represents the night. */
function pairsOf({ pairs = [] }: NightRecord): PairSummary[] {
  const byTrains = groupBy(pairs, ({ trains }) => JSON.stringify(trains));
  return [...byTrains.values()].flatMap((own): PairSummary[] => {
    const [best] = [...own].sort((a, b) => b.matched - a.matched);
    if (!best) return [];
    const { trains, offsetArcsec, rotation, scaleRatio, flexureArcsecPerHour } = best;
    return [{ trains, offsetArcsec, rotationDeg: halfTurnDeg(rotation), scaleRatio, flexureArcsecPerHour }];
  });
}

interface SubsCounted extends Omit<SubsTaken, 'frames'> {
  frames: number;
}

/** Lengths by train and filter: differences below a second are ignored. */
function subsOf({ frames }: NightRecord): SubsTaken[] {
  const subs = new Map<string, SubsCounted>();
  // A train mostly goes on as it did: then no key is made.
  const latest = new Map<string, SubsCounted>();
  for (const frame of frames) {
    const { train } = frame;
    const filter = frame.filter ?? '';
    const seconds = Math.round(frame.seconds);
    let own = latest.get(train);
    if (own?.filter !== filter || own.seconds !== seconds) {
      const key = textsKey(train, filter, String(seconds));
      own = subs.get(key) ?? { train, filter, seconds, frames: 0 };
      subs.set(key, own);
      latest.set(train, own);
    }
    own.frames++;
  }
  return [...subs.values()];
}

function siteOf({ site, window, archive }: NightRecord): ArchivedSite | null {
  // An impossible location counts as unknown; it must not stop the other nights.
  if (site === null || !(Math.abs(site.latitude) <= 90 && Math.abs(site.longitude) <= 360)) return null;
  return {
    name: site.name,
    latitudeDeg: site.latitude,
    longitudeDeg: site.longitude,
    elevationM: Number.isFinite(site.elevation) ? (site.elevation ?? undefined) : undefined,
    timezone: site.timezone,
    minimumAltitudeDeg: archive?.minimumAltitude,
    horizon: archive?.horizon ?? [],
    darkness: archive?.darkness ?? darknessOf(window.kind),
  };
}

function darknessOf(kind: NightRecord['window']['kind']): DarknessKind {
  return isKeyOf(TWILIGHTS, kind) ? kind : DEFAULT_DARKNESS;
}

/** From the first begin to the last end; one pass, for there are hundreds of frames in each of a thousand nights. */
function usedSpan({ frames }: NightRecord, beginsMs: Float64Array): Interval | null {
  let startMs = Infinity;
  let endMs = -Infinity;
  for (const [i, { seconds }] of frames.entries()) {
    const beginMs = itemAt(beginsMs, i);
    if (beginMs < startMs) startMs = beginMs;
    const closeMs = beginMs + Math.round(seconds * 1000);
    if (closeMs > endMs) endMs = closeMs;
  }
  return startMs <= endMs ? interval(startMs, endMs) : null;
}

function trainsOf(record: NightRecord, beginsMs: Float64Array): TrainSummary[] {
  const measures = new Map(
    record.trains.map(({ id }) => [id, { guiding: [] as number[], stars: [] as number[], fwhms: [] as number[] }]),
  );
  // Measured pixels take precedence; sizes in headers are measured by other programs in different ways.
  const isMeasured = record.frames.some(({ stars }) => stars?.fwhm != null);
  for (const { train, verdict, guidingRms, starSize, starFwhm, stars } of record.frames) {
    const size = isMeasured ? stars?.fwhm : starSize;
    const own = verdict === 'lost' ? undefined : measures.get(train);
    if (own && guidingRms != null) own.guiding.push(guidingRms);
    if (own && size != null) own.stars.push(size);
    if (own && size != null && starFwhm != null) own.fwhms.push(starFwhm);
  }
  return record.trains.map(({ id, role, pixelScale, aperture }) => {
    const accounts: Partial<Record<Account, number>> = {};
    for (const row of record.ledger) if (row.train === id) accounts[row.account] = Math.round(row.seconds * 1000);
    const { guiding = [], stars = [], fwhms = [] } = measures.get(id) ?? {};
    return {
      id,
      role,
      pixelScaleArcsec: pixelScale,
      accountsMs: accounts,
      guidingRmsArcsec: middle(guiding),
      starSize: middle(stars),
      ...(fwhms.length === 0 ? {} : { starFwhmArcsec: median(fwhms) }),
      ...(aperture === undefined ? {} : { apertureMm: aperture }),
      betweenSubsMs: middle(pausesOf(record, beginsMs, id)),
      ditherWaitMs: middle(
        record.dithers.flatMap((d) => {
          const seconds = ownValue(d.waits, id);
          return seconds === undefined ? [] : [seconds * 1000];
        }),
      ),
    };
  });
}

/** Longer rests between two subs are a dither or more, ms. Common practice, no source. */
const LONGEST_PAUSE_MS = 15_000;

/** From each exposure of a train to the next, excluding longer rests, ms. */
function pausesOf({ frames }: NightRecord, beginsMs: Float64Array, train: string): number[] {
  const own: number[] = [];
  let isInOrder = true;
  for (const [i, frame] of frames.entries()) {
    if (frame.train !== train) continue;
    const before = own.at(-1);
    isInOrder &&= before === undefined || itemAt(beginsMs, before) <= itemAt(beginsMs, i);
    own.push(i);
  }
  if (!isInOrder) own.sort((a, b) => itemAt(beginsMs, a) - itemAt(beginsMs, b));
  const pauses: number[] = [];
  for (let k = 1; k < own.length; k++) {
    const before = itemAt(own, k - 1);
    const pauseMs = itemAt(beginsMs, itemAt(own, k)) - itemAt(beginsMs, before) - itemAt(frames, before).seconds * 1000;
    if (pauseMs >= 0 && pauseMs <= LONGEST_PAUSE_MS) pauses.push(pauseMs);
  }
  return pauses;
}

function middle(values: readonly number[]): number | null {
  return values.length > 0 ? median(values) : null;
}
