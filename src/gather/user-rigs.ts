/**
 * Rigs described once, in a folder of the user's: a session without a rig file takes the one that its headers fit.
 */
import { parseRig, type Rig } from '../config/index.js';
import { MAX_CONFIG_BYTES, readTextFile } from '../files/read-text.js';
import { groupBy, separationDeg, type HeaderFrame, type Warning } from '../model/index.js';
import { assignTrains } from './assign-trains.js';
import { yamlFilesOf } from './yaml-files.js';

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

/** Reads the folder's rig files; those with mistakes are reported and left out. A missing folder holds none. */
export function readUserRigs(folder: string | undefined): { rigs: UserRig[]; warnings: Warning[] } {
  const warnings: Warning[] = [];
  const rigs = yamlFilesOf(folder).flatMap((file): UserRig[] => {
    try {
      const text = readTextFile(file, { maxBytes: MAX_CONFIG_BYTES });
      return [{ file, rig: parseRig(file, text).rig, sizeBytes: Buffer.byteLength(text) }];
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      warnings.push({ code: 'user-rig-unusable', message: `${file} cannot be used: ${reason}`, source: { file } });
      return [];
    }
  });
  return { rigs, warnings };
}

/**
 * Headers as read under the matching rig, and that rig: a rig's own keywords must be known before its frames are read.
 * Read again for every set of keywords named by the rigs.
 *
 * @param read reads the session's headers with further keywords
 */
export async function readUnderUserRig<H extends { readonly frames: readonly HeaderFrame[] }>(
  rigs: readonly UserRig[],
  read: (extra: Rig['keywords'] | undefined) => Promise<H>,
): Promise<{ readonly taken: UserRig | null; readonly headers: H }> {
  const plain = await read(undefined);
  const bySet = groupBy(rigs, ({ rig }) => JSON.stringify(rig.keywords));
  const fitting: { taken: UserRig; fits: number; headers: H }[] = [];
  for (const own of bySet.values()) {
    const keywords = own[0]?.rig.keywords ?? {};
    const headers = Object.keys(keywords).length === 0 ? plain : await read(keywords);
    const best = fittingRig(own, headers.frames);
    if (best) fitting.push({ ...best, headers });
  }
  const [first] = fitting.sort((a, b) => b.fits - a.fits);
  return first ? { taken: first.taken, headers: first.headers } : { taken: null, headers: plain };
}

/** The rig that the headers fit best, or `null`. Every one of its trains must have lights, and the site must agree. */
function fittingRig(
  rigs: readonly UserRig[],
  headers: readonly HeaderFrame[],
): { readonly taken: UserRig; readonly fits: number } | null {
  const lights = headers.filter((h) => h.kind === 'light');
  if (lights.length === 0) return null;
  const scored = rigs.flatMap((taken) => {
    const { rig } = taken;
    if (!isSameSite(rig, lights)) return [];
    const { frames } = assignTrains(lights, rig.trains);
    const fits = frames.filter((f) => isSameOptics(rig, f.train, f)).length;
    const hasAll = rig.trains.every((t) => frames.some((f) => f.train === t.id));
    return hasAll && fits >= FITTING_SHARE * lights.length ? [{ taken, fits }] : [];
  });
  return scored.sort((a, b) => b.fits - a.fits)[0] ?? null;
}

function isSameOptics({ trains }: Rig, id: string, frame: HeaderFrame): boolean {
  const stated = trains.find((t) => t.id === id)?.focalLengthMm;
  if (stated === undefined || frame.focalLengthMm === undefined) return true;
  // Reducers and spacing change a focal length by some per cent from the nominal value.
  return Math.abs(stated - frame.focalLengthMm) <= 0.05 * stated;
}

function isSameSite({ site }: Rig, lights: readonly HeaderFrame[]): boolean {
  const own = lights.find((l) => l.site !== undefined)?.site;
  if (!site || own === undefined) return true;
  return separationDeg(site.longitudeDeg, site.latitudeDeg, own.longitudeDeg, own.latitudeDeg) <= SAME_SITE_DEG;
}
