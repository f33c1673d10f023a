import {
  ACCOUNTS,
  clip,
  durationMs,
  intersect,
  interval,
  type Account,
  type FrameWorth,
  type Interval,
  type LedgerSegment,
  type Night,
  type SkyNight,
  type SkyPosition,
  type TargetCurve,
  type TrainLedger,
} from '../../model/index.js';

/**
 * The sky tells where one stands: from the time of dusk, or from a star's altitude, the site follows to a few
 * kilometres. What is shared is therefore as coarse as the rounded site: angles in whole degrees, times of Sun and
 * Moon, and the window with them, in steps of five minutes.
 */
const STEP_MS = 5 * 60_000;

/** Effective time of one frame, ms. */
const EFFECTIVE_STEP_MS = 10_000;

const rounded = (value: number, digits: number): number => Math.round(value * 10 ** digits) / 10 ** digits;
const down = (atMs: number): number => Math.floor(atMs / STEP_MS) * STEP_MS;
const up = (atMs: number): number => Math.ceil(atMs / STEP_MS) * STEP_MS;
const nearest = (atMs: number): number => Math.round(atMs / STEP_MS) * STEP_MS;
const nearestOrNever = (atMs: number | null): number | null => (atMs === null ? null : nearest(atMs));

/** A position in whole degrees. */
function coarsePosition(position: SkyPosition): SkyPosition {
  return {
    ...position,
    altitudeDeg: Math.round(position.altitudeDeg),
    azimuthDeg: Math.round(position.azimuthDeg),
    airmass: position.airmass === null ? null : rounded(position.airmass, 1),
    moonAltitudeDeg: Math.round(position.moonAltitudeDeg),
    moonSeparationDeg: Math.round(position.moonSeparationDeg),
    sunAltitudeDeg: Math.round(position.sunAltitudeDeg),
    limitDeg: Math.round(position.limitDeg),
  };
}

/** What a frame is worth tells its air mass: two digits of it do not. */
function coarseWorth(worth: FrameWorth): FrameWorth {
  return {
    ...worth,
    transparency: rounded(worth.transparency, 2),
    share: rounded(worth.share, 2),
    moonlessShare: rounded(worth.moonlessShare, 2),
    moonBrighteningMag: rounded(worth.moonBrighteningMag, 1),
    skyRatio: rounded(worth.skyRatio, 1),
    skyMagArcsec2: rounded(worth.skyMagArcsec2, 1),
    skyElectronsPerSecond:
      worth.skyElectronsPerSecond === null ? null : Number(worth.skyElectronsPerSecond.toPrecision(2)),
    effectiveMs: Math.round(worth.effectiveMs / EFFECTIVE_STEP_MS) * EFFECTIVE_STEP_MS,
  };
}

/** The window drawn in to whole steps; as it is where nothing would be left. */
function coarseWindow(window: Interval): Interval {
  const [startMs, endMs] = [up(window.startMs), down(window.endMs)];
  return endMs > startMs ? interval(startMs, endMs) : window;
}

/** A ledger over the smaller window: its segments cut at the edges, its totals summed anew, so that it still balances. */
function coarseLedger(ledger: TrainLedger, window: Interval): TrainLedger {
  const segments = ledger.segments.flatMap((segment): LedgerSegment[] => {
    const span = intersect(segment.span, window);
    return span === null ? [] : [{ ...segment, span }];
  });
  const total = (account: Account): number =>
    segments.reduce((sum, segment) => sum + (segment.account === account ? durationMs(segment.span) : 0), 0);
  const totalsMs = { ...ledger.totalsMs };
  for (const account of ACCOUNTS) totalsMs[account] = total(account);
  return { train: ledger.train, segments, totalsMs };
}

function coarseCurve(curve: TargetCurve, window: Interval): TargetCurve {
  return {
    target: curve.target,
    points: curve.points.map(coarsePosition),
    up: clip(
      curve.up.map((span) => interval(down(span.startMs), up(span.endMs))),
      window,
    ),
  };
}

function coarseSkyNight(sky: SkyNight, window: Interval): SkyNight {
  const passage = ({ duskMs, dawnMs }: { duskMs: number | null; dawnMs: number | null }) => ({
    duskMs: nearestOrNever(duskMs),
    dawnMs: nearestOrNever(dawnMs),
  });
  const { civil, nautical, astronomical } = sky.twilight;
  return {
    sunsetMs: nearestOrNever(sky.sunsetMs),
    sunriseMs: nearestOrNever(sky.sunriseMs),
    twilight: { civil: passage(civil), nautical: passage(nautical), astronomical: passage(astronomical) },
    window: {
      ...sky.window,
      span: window,
      sunMinimumDeg: Math.round(sky.window.sunMinimumDeg),
      sunMinimumMs: nearest(sky.window.sunMinimumMs),
    },
    moon: {
      ...sky.moon,
      illumination: rounded(sky.moon.illumination, 2),
      riseMs: nearestOrNever(sky.moon.riseMs),
      setMs: nearestOrNever(sky.moon.setMs),
    },
  };
}

/** The night with a sky as coarse as the rounded site, and ledgers that balance over the window it leaves. */
export function coarseSky(night: Night): Night {
  const { sky, accounts, worth } = night;
  if (sky.almanac === null) return night;
  const window = coarseWindow(sky.window);
  return {
    ...night,
    sky: {
      ...sky,
      window,
      almanac: coarseSkyNight(sky.almanac, window),
      positions: Object.fromEntries(Object.entries(sky.positions).map(([id, at]) => [id, coarsePosition(at)])),
      curves: sky.curves.map((curve) => coarseCurve(curve, window)),
    },
    accounts: {
      ...accounts,
      ledgers: accounts.ledgers.map((ledger) => coarseLedger(ledger, window)),
      lights: accounts.lights.map((frame) => ({
        ...frame,
        sky: frame.sky === null ? null : coarsePosition(frame.sky),
      })),
    },
    worth: worth && {
      ...worth,
      frames: Object.fromEntries(Object.entries(worth.frames).map(([id, one]) => [id, coarseWorth(one)])),
      moonlight: worth.moonlight.map(({ target, points }) => ({
        target,
        points: points.map((p) => ({ atMs: p.atMs, brighteningMag: rounded(p.brighteningMag, 1) })),
      })),
    },
  };
}
