/**
 * Small night records and summaries for tests of the archive. Invented throughout.
 */
import {
  ACCOUNTS,
  interval,
  totalIntegration,
  type NightSummary,
  type Total,
  type VerdictTally,
} from '../../src/model/index.js';
import type { SessionRecord } from '../../src/record/index.js';

type FrameRecord = SessionRecord['frames'][number];

export const CIERZO: NonNullable<SessionRecord['site']> = {
  name: 'Cierzo Hill',
  latitude: 40.42,
  longitude: -1.12,
  elevation: 1100,
  timezone: 'Europe/Madrid',
};

const HOUR = 3_600_000;

/** Frame `number` of a night: one every five minutes from 20:00 UTC on. */
export function frameOf(night: string, number: number, more: Partial<FrameRecord> = {}): FrameRecord {
  const beginMs = Date.parse(`${night}T20:00:00.000Z`) + number * 300_000;
  return {
    file: `frames/heron/${number}.fits`,
    identity: `${night}-${number}`,
    train: 'heron',
    target: 'NGC 281',
    filter: 'Ha',
    begin: new Date(beginMs).toISOString(),
    seconds: 240,
    verdict: 'kept',
    causes: [],
    moonSeparation: 80,
    moonAltitude: -20,
    altitude: 50,
    airmass: 1.3,
    guidingRms: 0.6,
    starSize: 2.4,
    starFwhm: 3.88,
    ...more,
  };
}

/** A session's record whose ledger balances: open shutter by its frames, a readout account, the rest unexplained. */
export function sessionOf(
  night: string,
  session: string,
  frames: readonly FrameRecord[],
  more: Partial<SessionRecord> = {},
): SessionRecord {
  const startMs = Date.parse(`${night}T19:00:00.000Z`);
  const endMs = startMs + 10 * HOUR;
  const trains = [...new Set(['heron', ...frames.map((f) => f.train)])];
  return {
    schema: 'nightledger/night/1',
    generator: { name: 'nightledger', version: 'test' },
    night,
    site: CIERZO,
    window: { start: new Date(startMs).toISOString(), end: new Date(endMs).toISOString(), kind: 'nautical' },
    trains: trains.map((id, i) => ({ id, role: i === 0 ? 'pilot' : 'companion', pixelScale: i === 0 ? 1.6 : 1.3 })),
    targets: [{ name: 'NGC 281', ra: 13.2458, dec: 56.622 }],
    headersOnly: false,
    totals: totalIntegration(frames, { lengthMs: (f) => f.seconds * 1000 }).map(({ ms, ...total }) => ({
      ...total,
      seconds: { taken: ms.taken / 1000, kept: ms.kept / 1000, doubtful: ms.doubtful / 1000, lost: ms.lost / 1000 },
    })),
    ledger: trains.flatMap((train) => {
      const own = frames.filter((f) => f.train === train);
      const open = (verdict: string): number =>
        own.filter((f) => f.verdict === verdict).reduce((sum, f) => sum + f.seconds, 0);
      const seconds: Record<string, number> = {
        kept: open('kept'),
        doubtful: open('doubtful'),
        lost: open('lost'),
        readout: own.length * 3,
      };
      const booked = Object.values(seconds).reduce((sum, s) => sum + s, 0);
      return ACCOUNTS.map((account) => ({
        train,
        account,
        seconds: account === 'unexplained' ? (endMs - startMs) / 1000 - booked : (seconds[account] ?? 0),
      }));
    }),
    dithers: [],
    frames: [...frames],
    sky: {
      sunset: null,
      sunrise: null,
      dusk: null,
      dawn: null,
      moon: { illumination: 0.2, rise: null, set: null },
    },
    findings: [],
    warnings: [],
    archive: { session, report: null, darkness: 'nautical', minimumAltitude: 25, goals: [] },
    ...more,
  };
}

const tally = (kept: number, lost = 0): VerdictTally => ({ taken: kept + lost, kept, doubtful: 0, lost });

/** A total of so many kept hours. */
export function hoursOf(target: string, filter: string, train: string, kept: number, lost = 0): Total {
  return {
    target,
    filter,
    train,
    frames: tally(Math.round(kept * 12), Math.round(lost * 12)),
    ms: tally(kept * HOUR, lost * HOUR),
  };
}

/** A night's summary: ten hours of darkness, from first light to last so long as `usedHours`. */
export function summaryOf(
  date: string,
  totals: readonly Total[],
  more: Partial<NightSummary> = {},
  usedHours = 6,
): NightSummary {
  const startMs = Date.parse(`${date}T19:00:00.000Z`);
  const ids = [...new Set(totals.map((t) => t.train))];
  return {
    file: `${date}.json`,
    date,
    site: {
      name: 'Cierzo Hill',
      latitudeDeg: 40.42,
      longitudeDeg: -1.12,
      elevationM: 1100,
      timezone: 'Europe/Madrid',
      minimumAltitudeDeg: 25,
      horizon: [],
      darkness: 'nautical',
    },
    window: interval(startMs, startMs + 10 * HOUR),
    isDarkness: true,
    used: interval(startMs + HOUR, startMs + HOUR + usedHours * HOUR),
    trains: ids.map((id, i) => ({
      id,
      role: i === 0 ? 'pilot' : 'companion',
      pixelScaleArcsec: 1.5,
      guidingRmsArcsec: 0.6,
      starSize: 2.4,
      ditherWaitMs: 12_000,
      accountsMs: { kept: totals.filter((t) => t.train === id).reduce((sum, t) => sum + t.ms.kept, 0) },
    })),
    targets: [...new Set(totals.map((t) => t.target))]
      .filter((name) => name !== '')
      .map((name, i) => ({ name, aliases: [], raDeg: 13 + 20 * i, decDeg: 56 })),
    goals: [],
    totals,
    pairs: [],
    headersOnly: false,
    report: null,
    ...more,
  };
}
