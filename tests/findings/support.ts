/**
 * Nights laid out by hand, for tests of findings: frames and activities given, verdicts, dithers and ledgers taken by
 * the program's own account. Everything is invented. Times are seconds after {@link T0} unless named otherwise.
 */
import { takeAccount } from '../../src/account/index.js';
import type { FindingDraft, FindingModule, Thresholds } from '../../src/findings/finding.js';
import { FINDINGS, findAll } from '../../src/findings/index.js';
import {
  hull,
  interval,
  type Accounts,
  type Activity,
  type ActivityKind,
  type Frame,
  type GatheredNight,
  type GuidingSeries,
  type LightFacts,
  type Interval,
  type Night,
  type NightSky,
  type SkyPosition,
  type StarSize,
  type TargetCurve,
  type Timeline,
  type Train,
} from '../../src/model/index.js';
import { activityOf, type More } from '../support/activities.js';
import { CIERZO_HILL, NGC_281, RULES } from '../support/nights.js';

/** 21:00 local time at the invented site. */
export const T0 = Date.UTC(2026, 9, 14, 19);
export const MINUTE = 60;
export const HOUR = 3600;

export const HERON: Train = { id: 'heron', role: 'pilot', pixelScaleArcsec: 1.6 };
export const WREN: Train = { id: 'wren', role: 'companion', pixelScaleArcsec: 1.3 };

export function span(from: number, to: number): Interval {
  return interval(Math.round(T0 + from * 1000), Math.round(T0 + to * 1000));
}

/** An activity from second to second. */
export function act<K extends ActivityKind>(kind: K, from: number, to: number, more: More<K> = {}): Activity {
  return activityOf(kind, span(from, to), {
    sources: [{ file: `logs/${more.train ?? 'heron'}.jsonl`, line: Math.max(1, Math.round(from)) }],
    ...more,
  });
}

export interface LightPlan {
  readonly from: number;
  readonly seconds: number;
  readonly count: number;
  readonly pause?: number;
  readonly filter?: string;
  readonly target?: string;
  readonly header?: (index: number) => Partial<LightFacts>;
  readonly more?: (index: number) => Partial<Frame>;
}

/** A star size as headers have it. */
export const sizeOf = (pixels: number): StarSize => ({ pixels, measure: 'half-flux' });

/** Lights of one train in a row. */
export function lights(
  train: string,
  { from, seconds, count, pause = 3, filter = 'Ha', target = 'NGC 281', header, more }: LightPlan,
): Frame[] {
  return Array.from({ length: count }, (_, i): Frame => {
    const begin = from + i * (seconds + pause);
    const exposure = span(begin, begin + seconds);
    const file = `frames/${train}/${filter}-${Math.round(begin)}.fits`;
    return {
      id: `${train}-${filter}-${Math.round(begin * 1000)}`,
      train,
      kind: 'light',
      exposure,
      askedMs: seconds * 1000,
      target,
      filter,
      provenance: 'log-and-file',
      file,
      savedMs: exposure.endMs + 2000,
      header: {
        file,
        sizeBytes: 5760,
        headerHash: `${train}${begin}`.padEnd(64, '0'),
        kind: 'light',
        exposure,
        exposureSeconds: seconds,
        ...header?.(i),
      },
      sources: [{ file, card: 'DATE-OBS' }],
      ...more?.(i),
    };
  });
}

/** What the header of a calibration frame says; only a flat's has a filter. */
type CalibrationFacts = Pick<
  LightFacts,
  'filter' | 'gain' | 'offset' | 'binning' | 'setTemperatureC' | 'sensorTemperatureC'
>;

/** A calibration frame of any kind, taken by day. */
export function calibrationFrame(
  train: string,
  kind: 'dark' | 'flat' | 'bias' | 'dark-flat',
  seconds: number,
  { filter, ...header }: CalibrationFacts = {},
  index = 0,
): Frame {
  const exposure = span(-20 * HOUR + index, -20 * HOUR + index + seconds);
  const file = `calibration/${train}/${kind}-${seconds}-${filter ?? ''}-${index}.fits`;
  return {
    id: file,
    train,
    kind,
    exposure,
    provenance: 'file-only',
    file,
    sources: [{ file }],
    ...(filter === undefined ? {} : { filter }),
    header: {
      file,
      sizeBytes: 5760,
      headerHash: file.padEnd(64, '0'),
      ...(kind === 'flat' ? { kind, filter } : { kind }),
      exposure,
      exposureSeconds: seconds,
      ...header,
    },
  };
}

export interface DitheredPlan {
  readonly blocks: number;
  /** Frames of `seconds` with their pause, per train and block. */
  readonly trains: Readonly<
    Record<
      string,
      { readonly seconds: number; readonly count: number; readonly pause?: number; readonly filter?: string }
    >
  >;
  readonly move?: number;
  readonly settle?: number;
  readonly from?: number;
  readonly settledOk?: (block: number) => boolean;
}

/** Blocks of frames on every train with a dither after each, at which all meet. */
export function dithered({ blocks, trains, move = 4, settle = 10, from = 0, settledOk = () => true }: DitheredPlan): {
  frames: Frame[];
  activities: Activity[];
  endSeconds: number;
} {
  const frames: Frame[] = [];
  const activities: Activity[] = [];
  let begin = from;
  for (let block = 0; block < blocks; block++) {
    const start = begin;
    const ready = Object.entries(trains).map(([train, { seconds, count, pause = 3, filter }]) => {
      frames.push(
        ...lights(train, { from: start, seconds, count, pause, ...(filter === undefined ? {} : { filter }) }),
      );
      return { train, at: start + count * (seconds + pause) };
    });
    const at = Math.max(...ready.map((r) => r.at));
    for (const r of ready) activities.push(act('dither-ready', r.at, at, { train: r.train }));
    activities.push(
      act('dither-move', at, at + move, { causedBy: 'heron', facts: { pixels: 5 } }),
      act('settling', at + move, at + move + settle, { causedBy: 'heron', facts: { ok: settledOk(block) } }),
    );
    begin = at + move + settle;
  }
  return { frames, activities, endSeconds: begin };
}

/** A night's parts, whatever their stage; what is not given is a plain night's. */
export interface NightParts
  extends Partial<
    Omit<GatheredNight, 'warnings'> &
      Pick<Timeline, 'targets' | 'coolers' | 'clocks' | 'headersOnly' | 'library' | 'warnings'> &
      Pick<NightSky, 'almanac' | 'curves'> &
      Pick<Accounts, 'guidingOverall' | 'guidingByTarget' | 'guidingDrifts'> &
      Pick<Night, 'worth' | 'replay'>
  > {
  readonly frames: readonly Frame[];
  readonly activities?: readonly Activity[];
  readonly window?: Interval;
  /** Sky at mid-exposure of a frame. */
  readonly skyOf?: (frame: Frame) => SkyPosition | null;
}

/** A whole night around frames and activities. */
export function nightOf({ frames, activities = [], skyOf, window, ...given }: NightParts): Night {
  const sorted = [...frames].sort((a, b) => a.exposure.startMs - b.exposure.startMs);
  const gathered: GatheredNight = {
    site: given.site === undefined ? CIERZO_HILL : given.site,
    darkness: given.darkness ?? 'nautical',
    trains: given.trains ?? [HERON, WREN],
    cameras: given.cameras ?? [],
    guideSource: given.guideSource ?? { source: 'off-axis', train: 'heron' },
    goals: given.goals ?? [],
    rules: given.rules ?? RULES,
    guiding: given.guiding ?? null,
    inputs: given.inputs ?? [],
    warnings: [],
  };
  const timeline: Timeline = {
    frames: sorted,
    library: given.library ?? [],
    activities: [...activities].sort((a, b) => a.span.startMs - b.span.startMs),
    targets: given.targets ?? [NGC_281],
    coolers: given.coolers ?? [],
    clocks: given.clocks ?? [],
    headersOnly: given.headersOnly ?? false,
    warnings: given.warnings ?? [],
  };
  const sky: NightSky = {
    window: window ?? hull(sorted.map((f) => f.exposure)) ?? span(0, HOUR),
    almanac: given.almanac ?? null,
    positions: Object.fromEntries(
      sorted.flatMap((f) => {
        const at = skyOf?.(f);
        return at ? [[f.id, at] as const] : [];
      }),
    ),
    curves: given.curves ?? [],
    warnings: [],
  };
  const accounts = takeAccount({ ...gathered, ...timeline, ...sky, stars: null });
  return {
    date: '2026-10-14',
    span: span(-9 * HOUR, 15 * HOUR),
    gathered,
    timeline,
    sky,
    stars: null,
    pictures: null,
    accounts: {
      ...accounts,
      guidingOverall: given.guidingOverall ?? accounts.guidingOverall,
      guidingByTarget: given.guidingByTarget ?? accounts.guidingByTarget,
      guidingDrifts: given.guidingDrifts ?? accounts.guidingDrifts,
    },
    worth: given.worth ?? null,
    replay: given.replay ?? null,
    findings: { ranked: [], notAssessed: [] },
  };
}

/** What a module finds on a night, or what it lacks: as the registry asks it. */
export function ask<T extends Thresholds>(
  module: FindingModule<T>,
  night: Night,
): FindingDraft[] | { readonly notAssessed: string } {
  const registered = FINDINGS.find((f) => f.id === module.id);
  if (!registered) throw new Error(`${module.id} is not in the registry`);
  const missing = findAll(night).notAssessed.find((n) => n.id === module.id);
  return missing ? { notAssessed: missing.missing } : registered.find(night, registered.defaults);
}

/** The findings of a night on which the module is assessed. */
export function found<T extends Thresholds>(module: FindingModule<T>, night: Night): FindingDraft[] {
  const answer = ask(module, night);
  if ('notAssessed' in answer) throw new Error(`${module.id} was not assessed: ${answer.notAssessed}`);
  return answer;
}

export const minutes = (ms: number | undefined): number => (ms ?? NaN) / 60_000;

/** A place in the sky. */
export function place(atMs: number, altitudeDeg: number, more: Partial<SkyPosition> = {}): SkyPosition {
  return {
    atMs,
    altitudeDeg,
    azimuthDeg: 120,
    airmass: 1 / Math.sin((Math.max(5, altitudeDeg) * Math.PI) / 180),
    moonAltitudeDeg: -20,
    moonSeparationDeg: 120,
    moonIllumination: 0.02,
    moonPhaseAngleDeg: 160,
    sunAltitudeDeg: -40,
    limitDeg: 25,
    ...more,
  };
}

/** A target's path: altitude by seconds after {@link T0}, every five minutes. */
export function curve(target: string, from: number, to: number, altitudeAt: (seconds: number) => number): TargetCurve {
  const points = Array.from({ length: Math.floor((to - from) / 300) + 1 }, (_, i) =>
    place(T0 + (from + i * 300) * 1000, altitudeAt(from + i * 300)),
  );
  const up: Interval[] = [];
  for (const p of points.slice(0, -1)) {
    if (p.altitudeDeg < p.limitDeg) continue;
    const last = up.at(-1);
    if (last && last.endMs === p.atMs) up[up.length - 1] = interval(last.startMs, p.atMs + 300_000);
    else up.push(interval(p.atMs, p.atMs + 300_000));
  }
  return { target, points, up };
}

/** Guiding samples: errors in arcseconds by seconds after {@link T0}. */
export function guidingOf(
  from: number,
  to: number,
  every: number,
  error: (seconds: number, index: number) => readonly [number, number],
): GuidingSeries {
  const at = Array.from({ length: Math.floor((to - from) / every) }, (_, i) => from + i * every);
  const errors = at.map((t, i) => error(t, i));
  return {
    atMs: Float64Array.from(at, (t) => T0 + t * 1000),
    raArcsec: Float64Array.from(errors, (e) => e[0]),
    decArcsec: Float64Array.from(errors, (e) => e[1]),
    snr: new Float64Array(at.length).fill(25),
    sources: [{ file: 'logs/guiding.csv', line: 2 }],
  };
}

/** A quick, even error: opposite sign at each sample. */
export const quick = (size: number, index: number): number => (index % 2 === 0 ? size : -size);
