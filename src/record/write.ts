/**
 * From a `Night` to its record.
 */
import {
  ACCOUNTS,
  durationMs,
  formatSource,
  idleTime,
  isReplayed,
  knownFwhmArcsec,
  warningsOf,
  worthOfFrame,
  worthOfTotal,
  type Cause,
  type DitherCycle,
  type JudgedFrame,
  type Night,
  type VerdictTally,
  type FrameStars,
  type FrameWorth,
  type TotalWorth,
  type Train,
  ownValue,
} from '../model/index.js';
import { storeParts, type KeptText } from './parts/store.js';
import type { NightRecord } from './schema.js';
import { SCHEMA_ID } from './schema-id.js';
import { toClocks } from './write-clocks.js';
import { toReplayRecord } from './write-replay.js';
import { toPair, toStars } from './write-stars.js';

/**
 * Creates the record of a night.
 *
 * @param whole whether the night can be recomputed from it, or its parts if already compressed; a shared one has only
 * its public keys
 */
export function toRecord(night: Night, version: string, whole: boolean | KeptText = true): NightRecord {
  const {
    sky: { almanac: sky },
    gathered: { site },
  } = night;
  return {
    schema: SCHEMA_ID,
    generator: { name: 'nightledger', version },
    night: night.date,
    site: site && {
      name: site.name || null,
      latitude: site.latitudeDeg,
      longitude: site.longitudeDeg,
      elevation: site.elevationM ?? null,
      timezone: site.timezone,
    },
    window: {
      start: instant(night.sky.window.startMs),
      end: instant(night.sky.window.endMs),
      kind: sky?.window.kind ?? 'activity',
      note: sky?.window.note,
    },
    trains: night.gathered.trains.map((t) => ({
      id: t.id,
      role: t.role,
      pixelScale: t.pixelScaleArcsec,
      aperture: t.apertureMm,
    })),
    targets: night.timeline.targets.map((t) => ({
      name: t.name,
      aliases: t.aliases.length > 0 ? [...t.aliases] : undefined,
      ra: t.raDeg,
      dec: t.decDeg,
    })),
    headersOnly: night.timeline.headersOnly,
    totals: night.accounts.totals.map((t) => ({
      target: t.target,
      filter: t.filter,
      train: t.train,
      frames: { ...t.frames },
      seconds: inSeconds(t.ms),
      ...effective(worthOfTotal(night, t)),
    })),
    ledger: night.accounts.ledgers.flatMap(({ train, totalsMs }) =>
      ACCOUNTS.map((account) => ({ train, account, seconds: totalsMs[account] / 1000 })),
    ),
    idle: night.gathered.trains.flatMap(({ id }) => toIdle(id, night)),
    dithers: night.accounts.dithers.map(toDither),
    frames: night.accounts.lights.map((frame) =>
      toFrame(frame, worthOfFrame(night, frame), ownValue(night.stars?.frames, frame.id), night.gathered.trains),
    ),
    pairs: (night.stars?.pairs ?? []).map(toPair),
    sky: sky && {
      sunset: maybeInstant(sky.sunsetMs),
      sunrise: maybeInstant(sky.sunriseMs),
      dusk: maybeInstant(sky.twilight[sky.window.asked].duskMs),
      dawn: maybeInstant(sky.twilight[sky.window.asked].dawnMs),
      moon: {
        illumination: sky.moon.illumination,
        rise: maybeInstant(sky.moon.riseMs),
        set: maybeInstant(sky.moon.setMs),
      },
    },
    referenceSub: night.worth === null ? undefined : night.worth.referenceMs / 1000,
    darkSky:
      night.worth === null
        ? undefined
        : { magnitude: night.worth.darkSkyMagArcsec2, assumed: night.worth.darkSkyFrom === 'default' },
    findings: night.findings.ranked.map((f) => ({
      id: f.id,
      title: f.title,
      costSeconds: f.costMs / 1000,
      evidence: [...f.evidence],
      advice: f.advice,
      winSeconds: f.winMs === undefined ? undefined : f.winMs / 1000,
      price: f.price,
      frames: f.frames,
      confidence: f.confidence,
      isFirst: f.isFirst,
      newDarks: f.newDarks?.slice(),
      caution: f.caution,
    })),
    notAssessed: night.findings.notAssessed.map((n) => ({ ...n })),
    replay: isReplayed(night.replay) ? toReplayRecord(night.replay) : undefined,
    clocks: toClocks(night.timeline.clocks),
    warnings: warningsOf(night).map((w) => ({
      code: w.code,
      message: w.message,
      source: w.source && formatSource(w.source),
      count: w.count,
    })),
    stages: whole === true ? storeParts(night) : whole === false ? undefined : whole,
  };
}

function toIdle(train: string, night: Night): NonNullable<NightRecord['idle']> {
  const idle = idleTime(night, train);
  if (idle === null) return [];
  const { twilight, low, before, after, between } = idle;
  return [
    {
      train,
      twilight: twilight / 1000,
      low: low / 1000,
      before: before / 1000,
      after: after / 1000,
      between: between / 1000,
    },
  ];
}

function toDither(cycle: DitherCycle): NightRecord['dithers'][number] {
  return {
    begin: instant(cycle.beginMs),
    waits: Object.fromEntries(
      Object.entries(cycle.waits).flatMap(([train, wait]) => (wait ? [[train, wait.waitMs / 1000]] : [])),
    ),
    holder: cycle.holder,
    moveSeconds: durationMs(cycle.move) / 1000,
    settleSeconds: cycle.settle ? durationMs(cycle.settle) / 1000 : null,
    inferred: cycle.certainty === 'inferred' || undefined,
  };
}

function toFrame(
  frame: JudgedFrame,
  worth: FrameWorth | undefined,
  stars: FrameStars | undefined,
  trains: readonly Train[],
): NightRecord['frames'][number] {
  return {
    file: frame.file ?? null,
    identity: frame.header?.headerHash || undefined,
    train: frame.train,
    target: frame.target ?? null,
    filter: frame.filter ?? null,
    begin: instant(frame.exposure.startMs),
    seconds: durationMs(frame.exposure) / 1000,
    verdict: frame.verdict,
    causes: frame.causes.map(toCause),
    cleared: frame.cleared.map((cleared) => ({ ...cleared })),
    stars: stars ? toStars(stars) : null,
    moonSeparation: frame.sky?.moonSeparationDeg ?? null,
    moonAltitude: frame.sky?.moonAltitudeDeg ?? null,
    altitude: frame.sky?.altitudeDeg ?? null,
    airmass: frame.sky?.airmass ?? null,
    guidingRms: frame.guiding?.totalRmsArcsec ?? null,
    starSize: frame.header?.starSize?.pixels ?? null,
    starFwhm:
      knownFwhmArcsec(
        stars,
        frame.header,
        trains.find(({ id }) => id === frame.train),
      ) ?? null,
    effectiveSeconds: worth ? worth.effectiveMs / 1000 : null,
    effectiveFrom: worth && (isMeasured(worth) ? 'measured' : 'modelled'),
    moonBrightening: worth?.moonBrighteningMag ?? null,
  };
}

/** Whether both the sky and the air of a frame were measured. */
function isMeasured({ skyFrom, transparencyFrom }: FrameWorth): boolean {
  return skyFrom === 'measured' && transparencyFrom === 'measured';
}

function effective(
  worth: TotalWorth | undefined,
): Pick<NightRecord['totals'][number], 'effectiveSeconds' | 'moonCostSeconds' | 'effectiveBasis' | 'effectiveRange'> {
  if (!worth) return { effectiveSeconds: null };
  return {
    effectiveSeconds: worth.effectiveMs / 1000,
    moonCostSeconds: worth.moonLossMs / 1000,
    effectiveBasis: {
      sky: worth.sky,
      transparency: worth.transparency,
      noise: worth.noise,
      referenceSeconds: worth.referenceMs / 1000,
      zenithSky: worth.zenith.electronsPerSecond,
      zenithFrom: worth.zenith.from,
    },
    effectiveRange: { low: worth.lowMs / 1000, high: worth.highMs / 1000, doubts: [...worth.doubts] },
  };
}

function toCause(cause: Cause): NightRecord['frames'][number]['causes'][number] {
  const where = cause.sources[0];
  return {
    kind: cause.kind,
    by: cause.by,
    from: instant(cause.span.startMs),
    to: instant(cause.span.endMs),
    overlapSeconds: cause.overlapMs / 1000,
    causedBy: cause.causedBy,
    evidence: where ? `${cause.evidence} [${formatSource(where)}]` : cause.evidence,
  };
}

function inSeconds(tally: VerdictTally): VerdictTally {
  return {
    taken: tally.taken / 1000,
    kept: tally.kept / 1000,
    doubtful: tally.doubtful / 1000,
    lost: tally.lost / 1000,
  };
}

function instant(ms: number): string {
  return new Date(ms).toISOString();
}

function maybeInstant(ms: number | null): string | null {
  return ms === null ? null : instant(ms);
}
