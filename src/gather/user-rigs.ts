/**
 * Rigs described once, in a folder of the user's: a session without a rig file takes the one that its headers fit.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ConfigError, parseRig, type Rig } from '../config/index.js';
import { separationDeg, type HeaderFrame, type Warning } from '../model/index.js';
import { assignTrains } from './assign-trains.js';

/** A rig of the user's folder. */
export interface UserRig {
  readonly file: string;
  readonly rig: Rig;
  readonly sizeBytes: number;
}

/** Lights that a rig must give to its trains for it to be this session's. */
const FITTING_SHARE = 0.9;
/** Sites farther apart than this are two, degrees. */
const SAME_SITE_DEG = 0.5;

/** Reads the folder's rig files; those with mistakes are told and left out. A folder that is not there holds none. */
export function readUserRigs(folder: string | undefined): { rigs: UserRig[]; warnings: Warning[] } {
  const warnings: Warning[] = [];
  if (folder === undefined || !existsSync(folder)) return { rigs: [], warnings };
  const names = readdirSync(folder)
    .filter((name) => /\.ya?ml$/i.test(name) && !name.startsWith('.'))
    .sort();
  const rigs = names.flatMap((name): UserRig[] => {
    const file = join(folder, name);
    try {
      const text = readFileSync(file, 'utf8');
      return [{ file, rig: parseRig(file, text).rig, sizeBytes: Buffer.byteLength(text) }];
    } catch (error) {
      const reason = error instanceof ConfigError ? error.message : String(error);
      warnings.push({ code: 'user-rig-unusable', message: `${file} cannot be used: ${reason}`, source: { file } });
      return [];
    }
  });
  return { rigs, warnings };
}

/** The rig that the headers fit best, or `null`. Every one of its trains must have lights, and the site must agree. */
export function fittingRig(rigs: readonly UserRig[], headers: readonly HeaderFrame[]): UserRig | null {
  const lights = headers.filter((h) => h.kind === 'light');
  if (lights.length === 0) return null;
  const scored = rigs.flatMap((candidate) => {
    const { rig } = candidate;
    if (!isSameSite(rig, lights)) return [];
    const { frames } = assignTrains(lights, rig.trains);
    const fits = frames.filter((f) => isSameOptics(rig, f.train, f)).length;
    const hasAll = rig.trains.every((t) => frames.some((f) => f.train === t.id));
    return hasAll && fits >= FITTING_SHARE * lights.length ? [{ candidate, fits }] : [];
  });
  return scored.sort((a, b) => b.fits - a.fits)[0]?.candidate ?? null;
}

function isSameOptics({ trains }: Rig, id: string, frame: HeaderFrame): boolean {
  const stated = trains.find((t) => t.id === id)?.focalLengthMm;
  if (stated === undefined || frame.focalLengthMm === undefined) return true;
  // Reducers and spacing change a focal length by some per cent from what was written down.
  return Math.abs(stated - frame.focalLengthMm) <= 0.05 * stated;
}

function isSameSite({ site }: Rig, lights: readonly HeaderFrame[]): boolean {
  const placed = lights.find((l) => l.siteLatitudeDeg !== undefined && l.siteLongitudeDeg !== undefined);
  if (!site || placed?.siteLatitudeDeg === undefined || placed.siteLongitudeDeg === undefined) return true;
  return (
    separationDeg(site.longitudeDeg, site.latitudeDeg, placed.siteLongitudeDeg, placed.siteLatitudeDeg) <= SAME_SITE_DEG
  );
}
