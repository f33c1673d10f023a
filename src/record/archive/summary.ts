/**
 * A record summed up: all that the progress of many nights needs of one.
 */
import {
  groupBy, hull, median,
  type Account, type ArchivedSite, type DarknessKind, type NightSummary, type TargetGoals, type TrainSummary,
} from '../../model/index.js';
import { exposureOf, sumFrames } from '../merge/index.js';
import { windowOf } from '../merge/index.js';
import type { FrameRecord, NightRecord } from '../schema.js';
import type { RecordFile } from './files.js';

/** Sums up a night's record. Totals are taken from the frames, not from what the record says of them. */
export function summarise({ file, record }: RecordFile): NightSummary {
  return {
    file,
    date: record.night,
    site: siteOf(record),
    window: windowOf(record),
    isDarkness: record.window.kind !== 'activity',
    used: hull(record.frames.map(exposureOf)),
    trains: trainsOf(record),
    targets: record.targets.map((t) => ({ name: t.name, aliases: t.aliases ?? [], raDeg: t.ra, decDeg: t.dec })),
    goals: goalsOf(record),
    totals: sumFrames(record.frames),
    headersOnly: record.headersOnly,
    report: record.archive?.report ?? null,
  };
}

function siteOf({ site, window, archive }: NightRecord): ArchivedSite | null {
  return site && {
    name: site.name,
    latitudeDeg: site.latitude,
    longitudeDeg: site.longitude,
    elevationM: site.elevation ?? 0,
    timezone: site.timezone,
    minimumAltitudeDeg: archive?.minimumAltitude,
    horizon: archive?.horizon ?? [],
    darkness: archive?.darkness ?? darknessOf(window.kind),
  };
}

function darknessOf(kind: NightRecord['window']['kind']): DarknessKind {
  return kind === 'civil' || kind === 'astronomical' ? kind : 'nautical';
}

function trainsOf(record: NightRecord): TrainSummary[] {
  const frames = groupBy(record.frames, (f) => f.train);
  const ledger = groupBy(record.ledger, (row) => row.train);
  return record.trains.map(({ id, role, pixelScale }) => {
    const sound = (frames.get(id) ?? []).filter((f) => f.verdict !== 'lost');
    const accounts: Partial<Record<Account, number>> = {};
    for (const row of ledger.get(id) ?? []) accounts[row.account] = Math.round(row.seconds * 1000);
    return {
      id,
      role,
      pixelScaleArcsec: pixelScale,
      accountsMs: accounts,
      guidingRmsArcsec: middle(sound, (f) => f.guidingRms),
      starSize: middle(sound, (f) => f.starSize),
      ditherWaitMs: middle(record.dithers, (d) => (d.waits[id] === undefined ? null : d.waits[id] * 1000)),
    };
  });
}

function middle<T extends FrameRecord | NightRecord['dithers'][number]>(items: readonly T[], value: (item: T) => number | null | undefined): number | null {
  const known = items.flatMap((item) => value(item) ?? []);
  return known.length > 0 ? median(known) : null;
}

function goalsOf({ archive }: NightRecord): TargetGoals[] {
  return (archive?.goals ?? []).map(({ name, aliases, ra, dec, hours, perTrain, ratio, totalHours }) => ({
    name, aliases, raDeg: ra, decDeg: dec, goals: { hours, perTrain: perTrain ?? {}, ratio, totalHours },
  }));
}
