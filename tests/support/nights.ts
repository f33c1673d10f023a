/**
 * Whole `Night` objects for tests of what is made from them. Everything here is invented: the site, the trains,
 * the weather and the mishaps. A small seeded simulation runs the trains against each other, so that waits,
 * losses and ledgers hang together as they would on a real night.
 */
import {
  ACCOUNTS,
  clip,
  contains,
  DEFAULT_RULES,
  durationMs,
  interval,
  midpointMs,
  overlapMs,
  partitionPoint,
  subtract,
  union,
  type Account,
  type Activity,
  type ActivityKind,
  type Cause,
  type DitherCycle,
  type Finding,
  type Frame,
  type GuidingSeries,
  type GuidingSummary,
  type HeaderFrame,
  type InputFile,
  type Interval,
  type JudgedFrame,
  type LedgerSegment,
  type Night,
  type NotAssessed,
  type Rules,
  type Site,
  type SkyNight,
  type SkyPosition,
  type Target,
  type TargetCurve,
  type Total,
  type Train,
  type TrainLedger,
  type Verdict,
  type Warning,
} from '../../src/model/index.js';
import { activityOf, type More } from './activities.js';
import { uniform } from './generator/random.js';

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

/** One stretch of the sequence: what every train points at, and which filters each train cycles through. */
export interface Block {
  readonly target: string;
  /** Minutes after the window's start at which the block begins. */
  readonly fromMinute: number;
  readonly filters: Readonly<Record<string, readonly string[]>>;
}

/** Something that goes wrong, at minutes after the window's start. */
export interface Mishap {
  readonly kind: 'refocus' | 'star-gap' | 'cloud' | 'flip' | 'rough' | 'abort';
  readonly atMinute: number;
  readonly seconds: number;
  readonly train?: string;
}

export interface TrainPlan extends Train {
  readonly subSeconds: number;
  readonly framesPerDither: number;
}

export interface NightPlan {
  readonly date: string;
  readonly site: Site | null;
  readonly trains: readonly TrainPlan[];
  /** Ends of the window; nautical darkness at the site when absent. */
  readonly windowUtc?: readonly [string, string];
  readonly windowKind?: SkyNight['window']['kind'];
  readonly windowNote?: string;
  readonly moon?: {
    readonly illumination: number;
    readonly waxing: boolean;
    readonly raDeg: number;
    readonly decDeg: number;
    readonly riseUtc?: string;
    readonly setUtc?: string;
  };
  readonly targets: readonly Target[];
  readonly blocks: readonly Block[];
  readonly mishaps?: readonly Mishap[];
  readonly guiding?: boolean;
  readonly headersOnly?: boolean;
  readonly warnings?: readonly Warning[];
  readonly calibration?: boolean;
  /** Of each frame, up to 2.6 s more; 1.6 s when absent. */
  readonly shortestReadoutMs?: number;
  readonly seed?: number;
}

export const RULES: Rules = DEFAULT_RULES;

export const CIERZO_HILL: Site = {
  name: 'Cierzo Hill',
  latitudeDeg: 40.4213,
  longitudeDeg: -1.1187,
  elevationM: 1104,
  timezone: 'Europe/Madrid',
  minimumAltitudeDeg: 25,
  horizon: [],
};

export const HERON: TrainPlan = {
  id: 'heron',
  role: 'pilot',
  focalLengthMm: 480,
  apertureMm: 80,
  pixelSizeUm: 3.76,
  pixelScaleArcsec: 1.616,
  subSeconds: 180,
  framesPerDither: 3,
};
export const WREN: TrainPlan = {
  id: 'wren',
  role: 'companion',
  focalLengthMm: 600,
  apertureMm: 150,
  pixelSizeUm: 3.76,
  pixelScaleArcsec: 1.293,
  subSeconds: 300,
  framesPerDither: 2,
};

export const NGC_281: Target = { name: 'NGC 281', aliases: [], raDeg: 13.246, decDeg: 56.622, origin: 'rig-file' };
export const IC_1396: Target = { name: 'IC 1396', aliases: [], raDeg: 324.75, decDeg: 57.5, origin: 'rig-file' };
export const M_33: Target = { name: 'M 33', aliases: [], raDeg: 23.462, decDeg: 30.66, origin: 'headers' };

const radians = (deg: number): number => (deg * Math.PI) / 180;
const degrees = (rad: number): number => (rad * 180) / Math.PI;

/** Low-precision place in the sky: good to a fraction of a degree, enough for drawing invented nights. */
function placeAt(site: Site, atMs: number, raDeg: number, decDeg: number): { altitudeDeg: number; azimuthDeg: number } {
  const days = atMs / 86_400_000 - 10957.5;
  const siderealDeg = 280.4606 + 360.9856473 * days + site.longitudeDeg;
  const hour = radians(siderealDeg - raDeg);
  const lat = radians(site.latitudeDeg);
  const dec = radians(decDeg);
  const sinAlt = Math.sin(lat) * Math.sin(dec) + Math.cos(lat) * Math.cos(dec) * Math.cos(hour);
  const az = Math.atan2(
    -Math.cos(dec) * Math.sin(hour),
    Math.sin(dec) * Math.cos(lat) - Math.cos(dec) * Math.sin(lat) * Math.cos(hour),
  );
  return { altitudeDeg: degrees(Math.asin(sinAlt)), azimuthDeg: (degrees(az) + 360) % 360 };
}

function separationDeg(ra1: number, dec1: number, ra2: number, dec2: number): number {
  const [a, b, d] = [radians(dec1), radians(dec2), radians(ra1 - ra2)];
  return degrees(
    Math.acos(Math.min(1, Math.max(-1, Math.sin(a) * Math.sin(b) + Math.cos(a) * Math.cos(b) * Math.cos(d)))),
  );
}

function sunAt(atMs: number): { raDeg: number; decDeg: number } {
  const days = atMs / 86_400_000 - 10957.5;
  const longitude = radians(280.46 + 0.9856474 * days + 1.915 * Math.sin(radians(357.528 + 0.9856003 * days)));
  return {
    raDeg: degrees(Math.atan2(Math.cos(radians(23.439)) * Math.sin(longitude), Math.cos(longitude))),
    decDeg: degrees(Math.asin(Math.sin(radians(23.439)) * Math.sin(longitude))),
  };
}

function skyPosition(plan: NightPlan, site: Site, target: Target, atMs: number, window: Interval): SkyPosition {
  const moon = plan.moon ?? { illumination: 0.02, waxing: true, raDeg: 200, decDeg: -10 };
  const hours = (atMs - window.startMs) / HOUR;
  const moonRa = moon.raDeg + 0.55 * hours;
  const { altitudeDeg, azimuthDeg } = placeAt(site, atMs, target.raDeg, target.decDeg);
  const sun = sunAt(atMs);
  return {
    atMs,
    altitudeDeg,
    azimuthDeg,
    airmass:
      altitudeDeg > 0 ? 1 / (Math.sin(radians(altitudeDeg)) + 0.50572 * (altitudeDeg + 6.07995) ** -1.6364) : null,
    moonAltitudeDeg: placeAt(site, atMs, moonRa, moon.decDeg).altitudeDeg,
    moonSeparationDeg: separationDeg(target.raDeg, target.decDeg, moonRa, moon.decDeg),
    moonIllumination: moon.illumination,
    moonPhaseAngleDeg: degrees(Math.acos(2 * moon.illumination - 1)),
    sunAltitudeDeg: placeAt(site, atMs, sun.raDeg, sun.decDeg).altitudeDeg,
    limitDeg: site.minimumAltitudeDeg,
  };
}

/** First passage of the Sun's centre through the altitude inside the span, or `null`. */
function sunPassage(site: Site, span: Interval, altitudeDeg: number, sense: 'down' | 'up'): number | null {
  const height = (atMs: number): number => {
    const sun = sunAt(atMs);
    return placeAt(site, atMs, sun.raDeg, sun.decDeg).altitudeDeg - altitudeDeg;
  };
  for (let at = span.startMs; at < span.endMs; at += 10 * SECOND) {
    const [before, after] = [height(at), height(at + 10 * SECOND)];
    if (sense === 'down' ? before > 0 && after <= 0 : before <= 0 && after > 0) return at;
  }
  return null;
}

interface Simulation {
  readonly frames: { frame: Frame; rough: boolean }[];
  readonly activities: Activity[];
  readonly dithers: DitherCycle[];
}

/** Runs the trains through the night: blocks, dither cycles by the slower train, mishaps where planned. */
function simulate(plan: NightPlan, window: Interval): Simulation {
  const random = uniform(plan.seed ?? 7);
  const { shortestReadoutMs = 1600 } = plan;
  const frames: { frame: Frame; rough: boolean }[] = [];
  const activities: Activity[] = [];
  const dithers: DitherCycle[] = [];
  const line = { n: 0 };
  const certainty = plan.headersOnly ? ('inferred' as const) : ('measured' as const);
  const act = <K extends ActivityKind>(kind: K, startMs: number, endMs: number, more: More<K> = {}): void => {
    line.n += 2;
    const sources = plan.headersOnly
      ? []
      : [{ file: `logs/${more.train ?? plan.trains[0]?.id ?? 'rig'}.jsonl`, line: line.n }];
    activities.push(activityOf(kind, interval(startMs, endMs), { certainty, sources, ...more }));
  };
  const mishaps = [...(plan.mishaps ?? [])].sort((a, b) => a.atMinute - b.atMinute);
  const due = (nowMs: number, kinds: readonly Mishap['kind'][]): Mishap | undefined => {
    const index = mishaps.findIndex((m) => kinds.includes(m.kind) && window.startMs + m.atMinute * MINUTE <= nowMs);
    return index < 0 ? undefined : mishaps.splice(index, 1)[0];
  };
  const counters = new Map<string, number>();
  const clock = new Map(plan.trains.map((t) => [t.id, window.startMs]));
  let guidingSince = window.startMs;
  let block = -1;

  const everyone = (atMs: number): void => {
    for (const t of plan.trains) clock.set(t.id, atMs);
  };
  const latest = (): number => Math.max(...clock.values());

  const point = (kind: 'slew' | 'flip', fromMs: number): number => {
    if (fromMs > guidingSince) act('guiding-on', guidingSince, fromMs);
    const moved = fromMs + (kind === 'flip' ? 85 : 48) * SECOND;
    const centred = moved + 62 * SECOND;
    const guided = centred + 24 * SECOND;
    act(kind, fromMs, moved);
    act('centre', moved, centred, { facts: { ok: true } });
    act('guiding-start', centred, guided);
    guidingSince = guided;
    return guided;
  };

  while (latest() < window.endMs - 2 * MINUTE) {
    const now = latest();
    const nextBlock = plan.blocks.findLastIndex((b) => window.startMs + b.fromMinute * MINUTE <= now);
    if (nextBlock !== block) {
      block = nextBlock;
      everyone(point('slew', now + (block === 0 ? 40 * SECOND : 5 * SECOND)));
      for (const train of plan.trains) {
        const from = latest() + 2 * SECOND;
        act('focus', from, from + 118 * SECOND, {
          train: train.id,
          facts: { ok: true, sizeBefore: 2.9, sizeAfter: 2.3, position: 11_820, temperature: 11.4 },
        });
        clock.set(train.id, from + 118 * SECOND);
      }
      everyone(latest() + 2 * SECOND);
    }
    const current = plan.blocks[block];
    if (!current) break;
    const cloud = due(now, ['cloud']);
    if (cloud) {
      act('hold', now, now + cloud.seconds * SECOND, { why: 'cloud' });
      everyone(now + cloud.seconds * SECOND);
      if (now > guidingSince) act('guiding-on', guidingSince, now);
      guidingSince = now + cloud.seconds * SECOND + 26 * SECOND;
      act('guiding-start', now + cloud.seconds * SECOND, guidingSince);
      everyone(guidingSince);
    }
    if (due(latest(), ['flip'])) everyone(point('flip', latest()));

    // One round: every train takes its frames, then all meet for the dither.
    for (const train of plan.trains) {
      const filters = current.filters[train.id] ?? ['L'];
      for (let n = 0; n < train.framesPerDither; n++) {
        const count = counters.get(train.id) ?? 0;
        const filter = filters[Math.floor(count / (train.framesPerDither * 3)) % filters.length];
        const before = filters[Math.floor((count - 1) / (train.framesPerDither * 3)) % filters.length];
        let at = clock.get(train.id) ?? now;
        if (count > 0 && filter !== before && filter !== undefined) {
          act('filter', at, at + 7 * SECOND, { train: train.id, facts: { to: filter } });
          at += 7 * SECOND;
        }
        const asked = train.subSeconds * SECOND;
        const abort = mishaps.findIndex(
          (m) => m.kind === 'abort' && m.train === train.id && window.startMs + m.atMinute * MINUTE <= at,
        );
        const taken = abort >= 0 ? Math.round(asked * 0.4) : asked;
        if (abort >= 0) mishaps.splice(abort, 1);
        if (at + taken > window.endMs + 20 * MINUTE) break;
        counters.set(train.id, count + 1);
        const exposure = interval(at, at + taken);
        const name = `${train.id}_${current.target.replaceAll(/\W+/g, '')}_${(filter ?? 'none').replaceAll(/\W+/g, '')}_${String(count + 1).padStart(4, '0')}.fits`;
        const file = `frames/${train.id}/${name}`;
        line.n += 3;
        const rough = (plan.mishaps ?? []).some(
          (m) =>
            m.kind === 'rough' &&
            contains(
              interval(window.startMs + m.atMinute * MINUTE, window.startMs + m.atMinute * MINUTE + m.seconds * SECOND),
              midpointMs(exposure),
            ),
        );
        const hours = (at - window.startMs) / HOUR;
        const header: HeaderFrame = {
          file,
          sizeBytes: 5760,
          headerHash: (random() * 2 ** 52).toString(16).padStart(64, '0').slice(0, 64),
          kind: 'light',
          exposure,
          exposureSeconds: taken / SECOND,
          target: current.target,
          ...(filter === undefined ? {} : { filter }),
          gain: 100,
          offset: 50,
          binning: { x: 1, y: 1 },
          sensorTemperatureC: -10 + (random() - 0.5) * 0.4,
          setTemperatureC: -10,
          focusPosition: train.role === 'pilot' ? 11_820 - Math.round(hours * 9) : 6_240 - 15 * Math.floor(hours * 0.9),
          focusTemperatureC: 11.4 - 9 * (1 - Math.exp(-hours / 5)) + random() * 0.2,
          starMeasure: 'half-flux',
          starSize: (train.role === 'pilot' ? 2.25 : 2.9) + 0.09 * (hours % 2.4) + random() * 0.22 + (rough ? 0.5 : 0),
          starCount: 900 + Math.round(random() * 200),
          backgroundAdu: 640 + Math.round(60 * random()),
        };
        frames.push({
          rough,
          frame: {
            id: `${train.id}-${String(count + 1).padStart(4, '0')}`,
            train: train.id,
            kind: 'light',
            exposure,
            askedMs: asked,
            target: current.target,
            ...(filter === undefined ? {} : { filter }),
            provenance: plan.headersOnly ? 'file-only' : 'log-and-file',
            file,
            header,
            ...(abort >= 0 ? { aborted: true } : {}),
            sources: plan.headersOnly
              ? [{ file, card: 'DATE-OBS' }]
              : [{ file: `logs/${train.id}.jsonl`, line: line.n }],
          },
        });
        const read = at + taken + shortestReadoutMs + Math.round(random() * 2600);
        act('readout', at + taken, read, { train: train.id });
        clock.set(train.id, read);
      }
    }
    if (latest() > window.endMs) break;

    // A refocus or a lost star strikes in the middle of the round just taken.
    const refocus = due(latest(), ['refocus']);
    if (refocus) {
      const train = refocus.train ?? plan.trains[0]?.id ?? '';
      const from = clock.get(train) ?? latest();
      const to = from + refocus.seconds * SECOND;
      act('focus', from, to, {
        train,
        why: 'temperature fell by 1.5 °C',
        facts: { ok: true, sizeBefore: 2.7, sizeAfter: 2.26, position: 11_780, temperature: 9.8 },
      });
      act('guiding-on', guidingSince, from);
      act('guiding-rest', from, to, { causedBy: train, why: 'refocus' });
      guidingSince = to;
      clock.set(train, to);
    }
    const lost = due(latest(), ['star-gap']);
    if (lost) {
      const from = latest() - 130 * SECOND;
      act('guiding-on', guidingSince, Math.max(guidingSince, from));
      act('star-gap', from, from + lost.seconds * SECOND);
      guidingSince = from + lost.seconds * SECOND;
    }
    if (!plan.headersOnly && plan.trains.length > 0) {
      const ready = plan.trains.map((t) => ({ id: t.id, atMs: clock.get(t.id) ?? now }));
      const last = ready.reduce((a, b) => (b.atMs > a.atMs ? b : a));
      const begin = last.atMs + 400;
      const move = interval(begin, begin + 2600 + Math.round(random() * 1800));
      const settle = interval(move.endMs, move.endMs + 6000 + Math.round(random() * 9000));
      for (const r of ready) if (begin > r.atMs) act('dither-ready', r.atMs, begin, { train: r.id });
      act('dither-move', move.startMs, move.endMs, { causedBy: plan.trains[0]?.id ?? '', facts: { pixels: 4 } });
      act('settling', settle.startMs, settle.endMs, { facts: { ok: true } });
      dithers.push({
        beginMs: begin,
        move,
        settle,
        pixels: 4,
        certainty: 'measured',
        waits: Object.fromEntries(
          ready.map((r) => [r.id, { readyMs: r.atMs, waitMs: begin - r.atMs, certainty: 'measured' }]),
        ),
        holder: ready.length > 1 ? last.id : null,
      });
      everyone(settle.endMs + 700);
    }
  }
  if (latest() > guidingSince) act('guiding-on', guidingSince, latest());
  return { frames, activities: activities.sort((a, b) => a.span.startMs - b.span.startMs), dithers };
}

function guidingSeries(plan: NightPlan, window: Interval, activities: readonly Activity[]): GuidingSeries | null {
  if (plan.guiding === false) return null;
  const random = uniform((plan.seed ?? 7) + 1);
  const gauss = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const on = activities.filter((a) => a.kind === 'guiding-on').map((a) => a.span);
  const rough = (plan.mishaps ?? [])
    .filter((m) => m.kind === 'rough')
    .map((m) =>
      interval(window.startMs + m.atMinute * MINUTE, window.startMs + m.atMinute * MINUTE + m.seconds * SECOND),
    );
  const [at, ra, dec]: number[][] = [[], [], []];
  for (const span of on) {
    for (let t = span.startMs; t < span.endMs; t += 2000) {
      const scale = rough.some((r) => contains(r, t)) ? 1.5 : 0.42 + 0.12 * Math.sin((t - window.startMs) / HOUR);
      at?.push(t);
      ra?.push(gauss() * scale);
      dec?.push(gauss() * scale * 0.85);
    }
  }
  return {
    atMs: Float64Array.from(at ?? []),
    raArcsec: Float64Array.from(ra ?? []),
    decArcsec: Float64Array.from(dec ?? []),
    snr: new Float64Array((at ?? []).length).fill(28),
    sources: [{ file: 'logs/guiding.csv', line: 2 }],
  };
}

function summarise(series: GuidingSeries, span: Interval): GuidingSummary | null {
  let [n, ra, dec, peak] = [0, 0, 0, 0];
  for (
    let i = partitionPoint(series.atMs, (at) => at >= span.startMs);
    i < series.atMs.length && (series.atMs[i] ?? 0) < span.endMs;
    i++
  ) {
    const [x, y] = [series.raArcsec[i] ?? 0, series.decArcsec[i] ?? 0];
    n++;
    ra += x * x;
    dec += y * y;
    peak = Math.max(peak, Math.hypot(x, y));
  }
  return n === 0
    ? null
    : {
        samples: n,
        raRmsArcsec: Math.sqrt(ra / n),
        decRmsArcsec: Math.sqrt(dec / n),
        totalRmsArcsec: Math.sqrt((ra + dec) / n),
        peakArcsec: peak,
      };
}

const MOTIONS: ReadonlySet<ActivityKind> = new Set(['slew', 'centre', 'flip', 'dither-move', 'settling']);
/** What can harm an open shutter. */
const HARMFUL: ReadonlySet<ActivityKind> = new Set([...MOTIONS, 'guiding-rest', 'star-gap']);

function causesOf(
  frame: Frame,
  activities: readonly Activity[],
  guiding: GuidingSummary | null,
  train: Train | undefined,
  sky: SkyPosition | null,
): Cause[] {
  const causes: Cause[] = [];
  const length = durationMs(frame.exposure);
  for (const a of activities) {
    const overlap = overlapMs(a.span, frame.exposure);
    if (overlap === 0) continue;
    if (MOTIONS.has(a.kind) && overlap > RULES.motionGraceSeconds * SECOND) {
      causes.push({
        kind: 'mount-motion',
        by: 'duration',
        verdict: 'lost',
        span: a.span,
        overlapMs: overlap,
        evidence: `The mount moved for ${(overlap / SECOND).toFixed(1)} s of the open shutter; the limit is 1 s.`,
        certainty: 'measured',
        sources: a.sources,
      });
    }
    if (a.kind === 'guiding-rest' || a.kind === 'star-gap') {
      const limit = Math.max(RULES.guidingOffGraceSeconds * SECOND, RULES.guidingOffShare * length);
      const what =
        a.kind === 'star-gap'
          ? 'The guide star was lost'
          : `Guiding was paused for a refocus on ${a.causedBy ?? 'a train'}`;
      causes.push({
        kind: 'guiding-off',
        by: 'duration',
        verdict: overlap > limit ? 'lost' : 'doubtful',
        span: a.span,
        overlapMs: overlap,
        ...(a.causedBy === undefined ? {} : { causedBy: a.causedBy }),
        evidence: `${what} for ${(overlap / SECOND).toFixed(1)} s of ${(length / SECOND).toFixed(0)} s; the limit is ${(limit / SECOND).toFixed(0)} s.`,
        certainty: 'measured',
        sources: a.sources,
      });
    }
  }
  if (
    guiding &&
    train?.pixelScaleArcsec !== undefined &&
    guiding.totalRmsArcsec > train.pixelScaleArcsec * RULES.roughGuidingPixels
  ) {
    causes.push({
      kind: 'rough-guiding',
      by: 'guiding',
      verdict: 'doubtful',
      span: frame.exposure,
      overlapMs: length,
      evidence: `Guiding RMS was ${guiding.totalRmsArcsec.toFixed(2)}″; the limit is one pixel, ${train.pixelScaleArcsec.toFixed(2)}″.`,
      certainty: 'measured',
      sources: [{ file: 'logs/guiding.csv', line: 4021 }],
    });
  }
  if (sky && sky.altitudeDeg < sky.limitDeg) {
    causes.push({
      kind: 'low',
      by: 'sky',
      verdict: 'doubtful',
      span: frame.exposure,
      overlapMs: length,
      evidence: `The target stood at ${sky.altitudeDeg.toFixed(1)}° in mid-exposure; the limit is ${sky.limitDeg.toFixed(0)}°.`,
      certainty: 'measured',
      sources: [{ file: 'rig.yaml', line: 4 }],
    });
  }
  if (frame.aborted) {
    causes.push({
      kind: 'cut-short',
      by: 'header',
      verdict: 'lost',
      span: frame.exposure,
      overlapMs: length,
      evidence: `The log says that the exposure was aborted after ${(length / SECOND).toFixed(0)} s of ${((frame.askedMs ?? length) / SECOND).toFixed(0)} s.`,
      certainty: 'measured',
      sources: frame.sources,
    });
  }
  return causes;
}

function ledgerOf(
  train: string,
  window: Interval,
  frames: readonly JudgedFrame[],
  activities: readonly Activity[],
  headersOnly: boolean,
): TrainLedger {
  const mine = frames.filter((f) => f.train === train);
  const of = (...kinds: ActivityKind[]): Interval[] =>
    activities.filter((a) => kinds.includes(a.kind) && (a.train === undefined || a.train === train)).map((a) => a.span);
  const layers: readonly (readonly [Account, readonly Interval[], string?])[] = [
    ['kept', mine.filter((f) => f.verdict === 'kept').map((f) => f.exposure)],
    ['doubtful', mine.filter((f) => f.verdict === 'doubtful').map((f) => f.exposure)],
    ['lost', mine.filter((f) => f.verdict === 'lost').map((f) => f.exposure)],
    ['hold', of('hold'), 'cloud'],
    ['pointing', of('slew', 'centre', 'flip')],
    ['guiding', of('guiding-start', 'star-gap')],
    ['dither', of('dither-move', 'settling')],
    ['focus', of('focus')],
    ['filter', of('filter')],
    ['readout', of('readout')],
    ['dither-wait', of('dither-ready')],
    ['partner-wait', activities.filter((a) => a.kind === 'focus' && a.train !== train).map((a) => a.span)],
    ['unexplained', [window]],
  ];
  let free: Interval[] = [window];
  const segments: LedgerSegment[] = [];
  const totalsMs = Object.fromEntries(ACCOUNTS.map((a) => [a, 0])) as Record<Account, number>;
  for (const [account, spans, label] of layers) {
    const taken = union(subtract(free, subtract(free, union(spans))));
    for (const span of taken) {
      segments.push({
        account,
        span,
        certainty: headersOnly ? 'inferred' : 'measured',
        ...(label === undefined ? {} : { label }),
      });
      totalsMs[account] += durationMs(span);
    }
    free = subtract(free, taken);
  }
  return { train, segments: segments.sort((a, b) => a.span.startMs - b.span.startMs), totalsMs };
}

function totalsOf(frames: readonly JudgedFrame[]): Total[] {
  const groups = new Map<string, JudgedFrame[]>();
  for (const f of frames) {
    const key = JSON.stringify([f.target ?? '', f.filter ?? '', f.train]);
    groups.set(key, [...(groups.get(key) ?? []), f]);
  }
  const tally = (list: readonly JudgedFrame[], value: (f: JudgedFrame) => number): Total['ms'] => {
    const sum = (v?: Verdict): number =>
      list.filter((f) => v === undefined || f.verdict === v).reduce((s, f) => s + value(f), 0);
    return { taken: sum(), kept: sum('kept'), doubtful: sum('doubtful'), lost: sum('lost') };
  };
  return [...groups.values()].map((list) => ({
    target: list[0]?.target ?? '',
    filter: list[0]?.filter ?? '',
    train: list[0]?.train ?? '',
    frames: tally(list, () => 1),
    ms: tally(list, (f) => durationMs(f.exposure)),
  }));
}

function findingsOf(night: {
  readonly dithers: readonly DitherCycle[];
  readonly frames: readonly JudgedFrame[];
  readonly ledgers: readonly TrainLedger[];
  readonly trains: readonly Train[];
}): Finding[] {
  const findings: Finding[] = [];
  const waits = night.ledgers
    .map((l) => ({ train: l.train, ms: l.totalsMs['dither-wait'] }))
    .sort((a, b) => b.ms - a.ms);
  const held = waits[0];
  if (held && held.ms > 0 && night.trains.length > 1) {
    const holder = night.dithers.find((d) => d.holder !== null && d.holder !== held.train)?.holder ?? 'the other train';
    findings.push({
      id: 'dither-wait',
      title: `${held.train} stood idle at dithers while ${holder} finished its exposure`,
      costMs: held.ms,
      evidence: [
        `${held.train} waited in ${night.dithers.length} dither cycles, ${Math.round(held.ms / night.dithers.length / SECOND)} s each on average.`,
        `${holder} was ready last in most of them.`,
      ],
      advice: `Give ${held.train} a sub length whose multiple meets ${holder}'s, or dither every second time.`,
      winMs: Math.round(held.ms * 0.7),
      confidence: 'high',
      links: [{ text: 'dither cycles', anchor: 'dithers' }],
    });
  }
  const harmed = night.frames.filter(
    (f) => f.verdict === 'lost' && f.causes.some((c) => c.causedBy !== undefined && c.causedBy !== f.train),
  );
  if (harmed.length > 0) {
    findings.push({
      id: 'refocus-harm',
      title: 'A refocus on one train cost the other its open frame',
      costMs: harmed.reduce((s, f) => s + durationMs(f.exposure), 0),
      frames: harmed.length,
      evidence: harmed.map((f) => `${f.id}: ${f.causes[0]?.evidence ?? ''}`),
      advice: 'Refocus when every shutter is closed: tie it to a dither.',
      confidence: 'high',
      links: harmed.map((f) => ({ text: f.id, anchor: `frame-${f.id}` })),
    });
  }
  const rough = night.frames.filter((f) => f.causes.some((c) => c.kind === 'rough-guiding'));
  if (rough.length > 0) {
    findings.push({
      id: 'rough-spell',
      title: 'Guiding was rough for part of the night',
      costMs: rough.reduce((s, f) => s + durationMs(f.exposure), 0),
      frames: rough.length,
      evidence: [`${rough.length} frames stand above the limit of one pixel.`],
      advice: 'Look at the wind and the balance in that direction.',
      confidence: 'medium',
      caution: 'Seeing alone can do this.',
    });
  }
  const low = night.frames.filter((f) => f.causes.some((c) => c.kind === 'low'));
  if (low.length > 0) {
    findings.push({
      id: 'low-target',
      title: 'The target was still low when imaging went on',
      costMs: low.reduce((s, f) => s + durationMs(f.exposure), 0),
      frames: low.length,
      evidence: [`${low.length} frames were taken below the site's limit.`],
      advice: 'Begin with a target that stands higher.',
      confidence: 'high',
    });
  }
  return findings.sort((a, b) => b.costMs - a.costMs);
}

const NOT_ASSESSED: readonly NotAssessed[] = [
  {
    id: 'sub-length',
    title: 'Whether subs are long enough for the sky',
    missing: 'read noise and conversion are in no header',
  },
  { id: 'tilt', title: 'Whether star size differs across the field', missing: 'pixels were not read' },
];

function windowOf(plan: NightPlan, span: Interval): Interval {
  if (plan.windowUtc) return interval(Date.parse(plan.windowUtc[0]), Date.parse(plan.windowUtc[1]));
  const site = plan.site ?? CIERZO_HILL;
  return interval(sunPassage(site, span, -12, 'down') ?? span.startMs, sunPassage(site, span, -12, 'up') ?? span.endMs);
}

/** When the Sun stands lowest, and how low. */
function sunLowest(site: Site, span: Interval): { atMs: number; altitudeDeg: number } {
  let lowest = { atMs: span.startMs, altitudeDeg: 90 };
  for (let atMs = span.startMs; atMs < span.endMs; atMs += MINUTE) {
    const sun = sunAt(atMs);
    const { altitudeDeg } = placeAt(site, atMs, sun.raDeg, sun.decDeg);
    if (altitudeDeg < lowest.altitudeDeg) lowest = { atMs, altitudeDeg };
  }
  return lowest;
}

/** Builds the night of a plan. */
export function buildNight(plan: NightPlan): Night {
  const noon = Date.parse(`${plan.date}T10:00:00Z`);
  const span = interval(noon, noon + 24 * HOUR);
  const window = windowOf(plan, span);
  const run = simulate(plan, window);
  const series = guidingSeries(plan, window, run.activities);
  const site = plan.site;
  const harmful = run.activities.filter(({ kind }) => HARMFUL.has(kind));
  const frames: JudgedFrame[] = run.frames
    .map(({ frame }) => {
      const guiding = series ? summarise(series, frame.exposure) : null;
      const target = plan.targets.find((t) => t.name === frame.target);
      const sky = site && target ? skyPosition(plan, site, target, midpointMs(frame.exposure), window) : null;
      const causes = causesOf(
        frame,
        harmful,
        guiding,
        plan.trains.find((t) => t.id === frame.train),
        sky,
      );
      const verdict: Verdict = causes.some((c) => c.verdict === 'lost')
        ? 'lost'
        : causes.length > 0
          ? 'doubtful'
          : 'kept';
      return { ...frame, verdict, causes, cleared: [], sky, guiding };
    })
    .sort((a, b) => a.exposure.startMs - b.exposure.startMs);
  const activities = plan.headersOnly ? [] : run.activities;
  const ledgers = plan.trains.map((t) => ledgerOf(t.id, window, frames, run.activities, plan.headersOnly ?? false));
  const curves: TargetCurve[] =
    site === null
      ? []
      : plan.targets.map((target) => {
          const points: SkyPosition[] = [];
          for (let at = span.startMs + 5 * HOUR; at <= span.endMs - 3 * HOUR; at += 5 * MINUTE)
            points.push(skyPosition(plan, site, target, at, window));
          const up = points
            .filter((p) => p.altitudeDeg >= p.limitDeg)
            .map((p) => interval(p.atMs, p.atMs + 5 * MINUTE));
          return { target: target.name, points, up: clip(union(up), window) };
        });
  const moonPlan = plan.moon ?? { illumination: 0.02, waxing: true };
  const twilight = (deg: number) => ({
    duskMs: site ? sunPassage(site, span, deg, 'down') : null,
    dawnMs: site ? sunPassage(site, span, deg, 'up') : null,
  });
  const instant = (text: string | undefined): number | null => (text === undefined ? null : Date.parse(text));
  const lowest = site === null ? null : sunLowest(site, span);
  const sky: SkyNight | null =
    site === null
      ? null
      : {
          sunsetMs: sunPassage(site, span, -0.83, 'down'),
          sunriseMs: sunPassage(site, span, -0.83, 'up'),
          twilight: { civil: twilight(-6), nautical: twilight(-12), astronomical: twilight(-18) },
          window: {
            span: window,
            kind: plan.windowKind ?? 'nautical',
            asked: 'nautical',
            sunMinimumDeg: lowest?.altitudeDeg ?? 0,
            sunMinimumMs: lowest?.atMs ?? midpointMs(window),
            ...(plan.windowNote === undefined ? {} : { note: plan.windowNote }),
          },
          moon: {
            illumination: moonPlan.illumination,
            waxing: moonPlan.waxing,
            riseMs: instant(plan.moon?.riseUtc),
            setMs: instant(plan.moon?.setUtc),
          },
        };
  const trains = plan.trains.map(({ subSeconds: _s, framesPerDither: _f, ...train }): Train => train);
  const inputs: InputFile[] = [
    { file: 'rig.yaml', role: 'rig-file', sizeBytes: 1480, sha256: 'c1'.repeat(32), lines: 42, understood: 42 },
    ...(plan.headersOnly
      ? []
      : trains.map(
          (t): InputFile => ({
            file: `logs/${t.id}.jsonl`,
            role: 'event-log',
            train: t.id,
            sizeBytes: 182_400,
            sha256: 'a7'.repeat(32),
            lines: 1204,
            understood: 1201,
          }),
        )),
    ...(series
      ? [
          {
            file: 'logs/guiding.csv',
            role: 'guiding-log',
            sizeBytes: 720_120,
            sha256: '5e'.repeat(32),
            lines: series.atMs.length + 1,
            understood: series.atMs.length,
          } satisfies InputFile,
        ]
      : []),
    ...frames.map(
      (f): InputFile => ({
        file: f.file ?? f.id,
        role: 'frame',
        train: f.train,
        sizeBytes: 5760,
        sha256: f.header?.headerHash ?? '',
      }),
    ),
  ];
  const dithers = plan.headersOnly ? [] : run.dithers;
  const calibration = plan.calibration === false ? [] : calibrationFrames(plan.trains, span);
  return {
    date: plan.date,
    span,
    gathered: {
      site,
      darkness: 'nautical',
      trains,
      cameras: [],
      guideSource: { source: 'off-axis', train: trains[0]?.id ?? '' },
      goals: [],
      rules: RULES,
      guiding: series,
      inputs,
      warnings: plan.warnings ?? [],
    },
    timeline: {
      frames: [...calibration, ...run.frames.map(({ frame }) => frame)].sort(
        (a, b) => a.exposure.startMs - b.exposure.startMs,
      ),
      library: [],
      activities,
      targets: plan.targets,
      coolers: [],
      clocks: plan.headersOnly
        ? []
        : trains.map((t) => ({
            train: t.id,
            source: 'headers' as const,
            against: `the log of ${t.id}`,
            aheadMs: 140,
            uncertaintyMs: 60,
            by: `${frames.filter((f) => f.train === t.id).length} exposures that its log has too`,
            corrected: false,
            isKnown: true,
            isAbsolute: true,
          })),
      headersOnly: plan.headersOnly ?? false,
      warnings: [],
    },
    sky: {
      window,
      almanac: sky,
      positions: Object.fromEntries(frames.flatMap((f) => (f.sky ? [[f.id, f.sky] as const] : []))),
      curves,
      warnings: [],
    },
    stars: null,
    pictures: null,
    accounts: {
      lights: frames,
      dithers,
      ledgers,
      totals: totalsOf(frames),
      guidingOverall: series ? summarise(series, window) : null,
      guidingByTarget: [],
      guidingDrifts: [],
    },
    worth: null,
    replay: null,
    findings: { ranked: findingsOf({ dithers, frames, ledgers, trains }), notAssessed: NOT_ASSESSED },
  };
}

/** A few darks, flats and bias frames: enough for some lights to be covered and some not. */
function calibrationFrames(trains: readonly TrainPlan[], span: Interval): Frame[] {
  const out: Frame[] = [];
  const add = (
    train: TrainPlan,
    kind: 'dark' | 'flat' | 'bias',
    count: number,
    seconds: number,
    filter?: string,
  ): void => {
    for (let i = 0; i < count; i++) {
      const exposure = interval(
        span.startMs + out.length * SECOND,
        span.startMs + out.length * SECOND + Math.round(seconds * SECOND),
      );
      const id = `${train.id}-${kind}-${filter ?? 'x'}-${i + 1}`;
      const file = `calibration/${train.id}/${id}.fits`;
      const header: HeaderFrame = {
        file,
        sizeBytes: 5760,
        headerHash: id.padEnd(64, '0'),
        kind,
        exposure,
        exposureSeconds: seconds,
        ...(filter === undefined ? {} : { filter }),
        gain: 100,
        offset: 50,
        binning: { x: 1, y: 1 },
        sensorTemperatureC: -10,
        setTemperatureC: -10,
      };
      out.push({
        id,
        train: train.id,
        kind,
        exposure,
        ...(filter === undefined ? {} : { filter }),
        provenance: 'file-only',
        file,
        header,
        sources: [{ file, card: 'DATE-OBS' }],
      });
    }
  };
  const first = trains[0];
  if (first) {
    add(first, 'dark', 20, first.subSeconds);
    add(first, 'bias', 30, 0.001);
    add(first, 'flat', 15, 2.5, 'Ha');
    add(first, 'flat', 15, 2.5, 'OIII');
  }
  const second = trains[1];
  if (second) add(second, 'flat', 12, 1.4, 'L');
  return out;
}

const MOON = { illumination: 0.62, waxing: true, raDeg: 318, decDeg: -17, setUtc: '2026-10-19T23:14:00Z' } as const;

const WARNINGS: readonly Warning[] = [
  {
    code: 'truncated-header',
    message:
      'The file ends inside its header after 1,440 bytes; it was left out. Copy it again from the camera computer.',
    source: { file: 'frames/wren/wren_NGC281_L_0042.fits' },
  },
  {
    code: 'unknown-event',
    message: 'The log names an event that is not known here; it was kept as a note.',
    source: { file: 'logs/wren.jsonl', line: 812 },
    count: 3,
  },
];

/** The main case: two trains, two targets, one refocus that harms the other train, a lost star, a cloud, a flip, an abort. */
export const TWIN_PLAN: NightPlan = {
  date: '2026-10-19',
  site: CIERZO_HILL,
  trains: [HERON, WREN],
  moon: MOON,
  targets: [IC_1396, NGC_281],
  blocks: [
    { target: 'IC 1396', fromMinute: 0, filters: { heron: ['Ha', 'OIII', 'SII'], wren: ['L', 'R', 'G', 'B'] } },
    { target: 'NGC 281', fromMinute: 275, filters: { heron: ['Ha', 'OIII'], wren: ['L', 'R', 'G', 'B'] } },
  ],
  mishaps: [
    { kind: 'refocus', atMinute: 95, seconds: 128, train: 'heron' },
    { kind: 'star-gap', atMinute: 190, seconds: 46 },
    { kind: 'cloud', atMinute: 330, seconds: 1500 },
    { kind: 'flip', atMinute: 395, seconds: 0 },
    { kind: 'abort', atMinute: 450, seconds: 0, train: 'wren' },
    { kind: 'rough', atMinute: 520, seconds: 1300 },
  ],
  warnings: WARNINGS,
};

const LONG_NAME = 'Sh2-129 + Ou4, north-eastern field of a wide mosaic in the wings of the flying bat, panel 3 of 12';

/** Plans of every night the report must stand up to, by name. */
export const PLANS: Readonly<Record<string, NightPlan>> = {
  'twin-night': TWIN_PLAN,
  'one-train': {
    ...TWIN_PLAN,
    trains: [HERON],
    blocks: [{ target: 'NGC 281', fromMinute: 0, filters: { heron: ['Ha', 'OIII'] } }],
    targets: [NGC_281],
  },
  'three-trains': {
    ...TWIN_PLAN,
    trains: [
      HERON,
      WREN,
      {
        id: 'stilt',
        role: 'companion',
        focalLengthMm: 135,
        apertureMm: 67,
        pixelSizeUm: 3.76,
        pixelScaleArcsec: 5.745,
        subSeconds: 120,
        framesPerDither: 4,
      },
    ],
    blocks: [
      {
        target: 'IC 1396',
        fromMinute: 0,
        filters: { heron: ['Ha', 'OIII', 'SII'], wren: ['L'], stilt: ['Dual band', 'UV/IR cut'] },
      },
    ],
  },
  'two-hours': {
    ...TWIN_PLAN,
    windowUtc: ['2026-10-19T18:18:00Z', '2026-10-19T20:18:00Z'],
    mishaps: [{ kind: 'refocus', atMinute: 40, seconds: 118, train: 'heron' }],
    blocks: [{ target: 'IC 1396', fromMinute: 0, filters: { heron: ['Ha'], wren: ['L'] } }],
    targets: [IC_1396],
  },
  'fourteen-hours': {
    ...TWIN_PLAN,
    date: '2026-12-12',
    targets: [NGC_281, M_33],
    site: { ...CIERZO_HILL, name: 'Northern Ledge', latitudeDeg: 57.2, timezone: 'Europe/Berlin', longitudeDeg: 11.9 },
    moon: { illumination: 0.12, waxing: true, raDeg: 330, decDeg: -14, setUtc: '2026-12-12T19:02:00Z' },
    blocks: [
      { target: 'M 33', fromMinute: 0, filters: { heron: ['L', 'R', 'G', 'B'], wren: ['L', 'Ha'] } },
      { target: 'NGC 281', fromMinute: 420, filters: { heron: ['Ha', 'OIII', 'SII'], wren: ['OIII'] } },
    ],
  },
  'long-names': {
    ...TWIN_PLAN,
    site: { ...CIERZO_HILL, name: 'The upper terrace of the old threshing floor behind the chapel of Cierzo Hill' },
    targets: [
      { ...IC_1396, name: LONG_NAME },
      { ...NGC_281, name: '<script>alert(1)</script> {{x}} & "quoted"' },
    ],
    blocks: [
      { target: LONG_NAME, fromMinute: 0, filters: { heron: ['Ha 3 nm edge', 'OIII 3 nm edge'], wren: ['Luminance'] } },
      {
        target: '<script>alert(1)</script> {{x}} & "quoted"',
        fromMinute: 300,
        filters: { heron: ['Ha 3 nm edge'], wren: ['{{{filter}}}', '<b>'] },
      },
    ],
  },
  'polar-summer': {
    ...TWIN_PLAN,
    date: '2026-06-20',
    site: { ...CIERZO_HILL, name: 'Midnight Strand', latitudeDeg: 69.3, longitudeDeg: 18.9, timezone: 'Europe/Oslo' },
    windowUtc: ['2026-06-20T21:45:00Z', '2026-06-20T23:45:00Z'],
    windowKind: 'sun-minimum',
    windowNote:
      'The Sun does not set on this night: nautical darkness never comes. The window is the two hours about the Sun’s lowest point.',
    moon: { illumination: 0.38, waxing: true, raDeg: 175, decDeg: 4 },
    targets: [IC_1396],
    blocks: [{ target: 'IC 1396', fromMinute: 0, filters: { heron: ['Ha'], wren: ['L'] } }],
    mishaps: [],
  },
  'headers-only': { ...TWIN_PLAN, headersOnly: true, guiding: false, warnings: [], calibration: false },
  'no-site': { ...TWIN_PLAN, site: null },
  'no-guiding': { ...TWIN_PLAN, guiding: false },
  'none-kept': {
    ...TWIN_PLAN,
    windowUtc: ['2026-10-19T18:18:00Z', '2026-10-19T21:18:00Z'],
    blocks: [{ target: 'IC 1396', fromMinute: 0, filters: { heron: ['Ha'], wren: ['L'] } }],
    targets: [IC_1396],
    mishaps: [
      { kind: 'rough', atMinute: 0, seconds: 4 * 3600 },
      { kind: 'cloud', atMinute: 100, seconds: 1800 },
    ],
  },
  'no-frames': { ...TWIN_PLAN, blocks: [], mishaps: [] },
};

/** The names of the nights, in the order a gallery shows them. */
export const NIGHT_NAMES = Object.keys(PLANS);

/**
 * Three trains, nine hundred frames, long names and fourteen hours in one night, for what is too dear to be asked of
 * each by itself: print.
 * The gallery and the tests of every night pass it over.
 */
const LONGEST: NightPlan = {
  ...PLANS['long-names']!,
  date: '2026-12-12',
  site: {
    ...CIERZO_HILL,
    name: 'The upper terrace of the old threshing floor behind the chapel of the Northern Ledge',
    latitudeDeg: 57.2,
    longitudeDeg: 11.9,
    timezone: 'Europe/Berlin',
  },
  trains: PLANS['three-trains']!.trains.map((train) => ({ ...train, subSeconds: 160, framesPerDither: 10 })),
  moon: PLANS['fourteen-hours']!.moon,
  blocks: [
    {
      target: LONG_NAME,
      fromMinute: 0,
      filters: { heron: ['Ha 3 nm edge', 'OIII 3 nm edge'], wren: ['Luminance'], stilt: ['Dual band', 'UV/IR cut'] },
    },
    {
      target: '<script>alert(1)</script> {{x}} & "quoted"',
      fromMinute: 420,
      filters: { heron: ['Ha 3 nm edge'], wren: ['{{{filter}}}', '<b>'], stilt: ['Dual band'] },
    },
  ],
};

/** Short subs on every train: what the longest lists and the densest charts are made of. */
const shortSubs = (plan: NightPlan, subSeconds: number, framesPerDither = 10): NightPlan => ({
  ...plan,
  trains: plan.trains.map((train) => ({ ...train, subSeconds, framesPerDither })),
});

/** Nights by how many frames they have, for what grows with them: print and the page's size. Passed over as the longest. */
const COUNTED: Readonly<Record<string, NightPlan>> = {
  longest: LONGEST,
  'twenty-frames': {
    ...PLANS['two-hours']!,
    trains: PLANS['two-hours']!.trains.map((train) => ({ ...train, subSeconds: 600 })),
  },
  'twenty-thousand-frames': { ...shortSubs(PLANS['twin-night']!, 1, 50), shortestReadoutMs: 200 },
};

/** Names of those. */
export const COUNTED_NAMES = Object.keys(COUNTED);

const nights = new Map<string, Night>();

/** One of the named nights; built once. */
export function namedNight(name: string): Night {
  const plan = COUNTED[name] ?? PLANS[name];
  if (!plan) throw new RangeError(`no invented night is called ${name}; there are ${NIGHT_NAMES.join(', ')}`);
  const built = nights.get(name) ?? buildNight(plan);
  nights.set(name, built);
  return built;
}
