/**
 * A night made from a record's public keys only: the content of records from before the parts were stored, and of
 * shared ones. Verdicts, ledgers and findings are as written; anything not in the record is unknown.
 */
import {
  ACCOUNTS,
  causeRow,
  interval,
  type Account,
  type Cause,
  type DitherCycle,
  type Frame,
  type GatheredNight,
  type Interval,
  type JudgedFrame,
  type Night,
  type Rules,
  type TrainLedger,
} from '../model/index.js';
import type { FrameRecord, SessionRecord } from './schema.js';

/** What a record's public keys contain about a night. */
export type PublicNight = Pick<Night, 'date' | 'gathered' | 'timeline' | 'accounts' | 'findings'> & {
  readonly window: Interval;
  /** Whether the record knows the sky of its site: a shared one does not. */
  readonly knowsSky: boolean;
};

/** Altitude limit if a record has none, degrees; the rig file's own default. */
const USUAL_LIMIT_DEG = 25;

const ms = (seconds: number): number => Math.round(seconds * 1000);
const at = (instant: string): number => Date.parse(instant);

/**
 * Reads a record's public keys.
 *
 * @param rules those in the rig file, or the defaults: the record does not say which it was judged by
 */
export function nightOfKeys(record: SessionRecord, rules: Rules): PublicNight {
  const lights = record.frames.map(lightOf);
  return {
    date: record.night,
    window: interval(at(record.window.start), Math.max(at(record.window.start), at(record.window.end))),
    knowsSky: record.sky !== null,
    gathered: gatheredOf(record, rules),
    timeline: {
      frames: framesOfKeys(record.frames),
      library: [],
      activities: [],
      targets: record.targets.map(({ name, aliases = [], ra, dec }) => ({
        name,
        aliases,
        raDeg: ra,
        decDeg: dec,
        origin: 'rig-file',
      })),
      coolers: [],
      clocks: (record.clocks ?? []).map((c) => ({
        train: c.train,
        source: c.source,
        against: c.by,
        aheadMs: ms(c.aheadSeconds),
        uncertaintyMs: ms(c.uncertaintySeconds),
        corrected: c.corrected,
        by: c.by,
        isKnown: c.known,
        isAbsolute: c.absolute,
      })),
      headersOnly: record.headersOnly,
      warnings: [],
    },
    accounts: {
      lights,
      dithers: record.dithers.map(ditherOf),
      ledgers: record.trains.map(({ id }) => ledgerOf(id, record)),
      totals: record.totals.map(({ target, filter, train, frames, seconds }) => ({
        target,
        filter,
        train,
        frames,
        ms: {
          taken: ms(seconds.taken),
          kept: ms(seconds.kept),
          doubtful: ms(seconds.doubtful),
          lost: ms(seconds.lost),
        },
      })),
      guidingOverall: null,
      guidingByTarget: [],
      guidingDrifts: [],
    },
    findings: {
      ranked: record.findings.map(({ costSeconds, winSeconds, ...finding }) => ({
        ...finding,
        costMs: ms(costSeconds),
        winMs: winSeconds === undefined ? undefined : ms(winSeconds),
        confidence: finding.confidence ?? 'medium',
      })),
      notAssessed: record.notAssessed ?? [],
    },
  };
}

function gatheredOf({ site, trains, archive, window, warnings }: SessionRecord, rules: Rules): GatheredNight {
  return {
    site: site && {
      name: site.name ?? '',
      latitudeDeg: site.latitude,
      longitudeDeg: site.longitude,
      elevationM: site.elevation ?? undefined,
      timezone: site.timezone,
      minimumAltitudeDeg: archive?.minimumAltitude ?? USUAL_LIMIT_DEG,
      horizon: archive?.horizon ?? [],
    },
    darkness:
      archive?.darkness ?? (window.kind === 'civil' || window.kind === 'astronomical' ? window.kind : 'nautical'),
    trains: trains.map(({ id, role, pixelScale }) => ({ id, role, pixelScaleArcsec: pixelScale })),
    cameras: [],
    guideSource: { source: 'unknown' },
    goals: [],
    rules,
    guiding: null,
    inputs: [],
    warnings: warnings.map(({ code, message, count }) => ({ code, message, count })),
  };
}

function lightOf(frame: FrameRecord, index: number): JudgedFrame {
  const startMs = at(frame.begin);
  return {
    id: `${frame.train}-${String(index + 1).padStart(4, '0')}`,
    train: frame.train,
    kind: 'light',
    exposure: interval(startMs, startMs + ms(frame.seconds)),
    target: frame.target ?? undefined,
    filter: frame.filter ?? undefined,
    provenance: frame.file === null ? 'log-only' : 'file-only',
    file: frame.file ?? undefined,
    // The record does not state it explicitly.
    aborted: (frame.file === null && frame.causes.some(({ kind }) => kind === 'cut-short')) || undefined,
    sources: [],
    verdict: frame.verdict,
    causes: frame.causes.map((cause) => causeOf(cause, frame.verdict)),
    cleared: frame.cleared ?? [],
    sky: null,
    guiding: null,
  };
}

/** A record's frames without their verdicts. */
export function framesOfKeys(records: readonly FrameRecord[]): Frame[] {
  return records.map((record, index) => frameOf(lightOf(record, index), record));
}

/** The same exposure without its verdict, with the header facts in the record. */
function frameOf(light: JudgedFrame, record: FrameRecord): Frame {
  const { verdict: _v, causes: _c, cleared: _x, sky: _s, guiding: _g, ...frame } = light;
  if (frame.file === undefined) return frame;
  return {
    ...frame,
    header: {
      file: frame.file,
      sizeBytes: 0,
      // Empty where the record has no identity, and left out again when it is written.
      headerHash: record.identity ?? '',
      kind: 'light',
      exposure: frame.exposure,
      exposureSeconds: record.seconds,
      target: frame.target,
      filter: frame.filter,
      starSize: typeof record.starSize === 'number' ? { pixels: record.starSize, measure: 'unknown' } : undefined,
    },
  };
}

function causeOf(cause: FrameRecord['causes'][number], verdict: FrameRecord['verdict']): Cause {
  return {
    kind: cause.kind,
    // Older records were judged by the weakest evidence of a kind.
    by: cause.by ?? causeRow(cause.kind).restsOn.at(-1) ?? 'duration',
    verdict: verdict === 'lost' ? 'lost' : 'doubtful',
    span: interval(at(cause.from), Math.max(at(cause.from), at(cause.to))),
    overlapMs: ms(cause.overlapSeconds),
    causedBy: cause.causedBy,
    evidence: cause.evidence,
    certainty: 'measured',
    sources: [],
  };
}

function ditherOf({ begin, waits, holder, moveSeconds, settleSeconds, inferred }: SessionRecord['dithers'][number]) {
  const beginMs = at(begin);
  const certainty = inferred ? 'inferred' : 'measured';
  const move = interval(beginMs, beginMs + ms(moveSeconds));
  return {
    beginMs,
    move,
    settle: settleSeconds === null ? undefined : interval(move.endMs, move.endMs + ms(settleSeconds)),
    waits: Object.fromEntries(
      Object.entries(waits).map(([train, wait]) => [
        train,
        { readyMs: beginMs - ms(wait), waitMs: ms(wait), certainty },
      ]),
    ),
    holder,
    certainty,
  } satisfies DitherCycle;
}

/** Totals without the segments behind them. */
function ledgerOf(train: string, { ledger }: SessionRecord): TrainLedger {
  const totals = new Map<Account, number>(ACCOUNTS.map((account) => [account, 0]));
  for (const row of ledger) if (row.train === train) totals.set(row.account, ms(row.seconds));
  return { train, segments: [], totalsMs: Object.fromEntries(totals) as Record<Account, number> };
}
