/**
 * One camera cannot take two exposures simultaneously: frames of one train that overlap in time prove two trains. Finds
 * such frames, and the distinction (folder, part of the file name, serial number, exposure length) between the trains.
 */
import {
  groupBy,
  isDatedLight,
  itemAt,
  ownValue,
  type DatedHeader,
  type HeaderFrame,
  type Warning,
} from '../model/index.js';

/** Two frames of one train whose shutters were open at once. */
export type Overlap = readonly [HeaderFrame, HeaderFrame];

/** A way to distinguish the frames of several trains such that none overlaps itself. */
export interface Split {
  readonly by: 'folder' | 'file name' | 'serial number' | 'exposure length';
  readonly groups: readonly SplitGroup[];
  /** The unit of the distinction, if numeric. */
  readonly unit?: string;
}

/** One of the trains, and how a rig file names its frames. */
export interface SplitGroup {
  /** The folder's name, the part of the file name, the serial number or the length. */
  readonly mark: string;
  readonly frames: readonly HeaderFrame[];
  /** Globs, if the distinction is in the path. */
  readonly globs: readonly string[];
  /** Header values, if it is there. */
  readonly match: Readonly<Record<string, string | number>>;
}

/** Keywords under which a camera's serial number may stand. Common practice, no source. */
export const SERIAL_KEYWORDS: readonly string[] = ['SERIALNO', 'SERIAL', 'CAM-SN', 'CAMSN', 'CAMERASN', 'CAMSERNO'];
/** The keyword a length of exposure is matched by. */
export const LENGTH_KEYWORD = 'EXPTIME';

/** The code of the warning that one train exposes twice at once. */
export const OVERLAP_CODE = 'train-overlaps-itself';

/** Starts and lengths written to the second may seem to overlap by this, ms. */
export const ROUNDING_MS = 2000;
/** One pair may be a slip of one header; a second camera makes many. */
export const PROVING_PAIRS = 2;
/**
 * Trains expose beside each other for much of the night: where fewer pairs than this share of a train's frames overlap,
 * as where one target follows another and a clock is set, the mark is not one of trains. Common practice, no source.
 */
const BESIDE_SHARE = 0.2;
/** With more trains than this on one mount, the mark means something else (dates, numbers). */
const MOST_TRAINS = 6;

/** Pairs of lights of one train that overlap in time, each with its neighbour; copies of a file aside. */
export function overlapsOf(frames: readonly HeaderFrame[]): Overlap[] {
  const lights = frames
    .filter(isDatedLight)
    .sort((a, b) => a.exposure.startMs - b.exposure.startMs || (a.file < b.file ? -1 : 1));
  const pairs: Overlap[] = [];
  let last: DatedHeader | undefined;
  for (const frame of lights) {
    if (last?.headerHash === frame.headerHash) continue;
    if (last && last.exposure.endMs - frame.exposure.startMs > ROUNDING_MS) pairs.push([last, frame]);
    if (!last || frame.exposure.endMs > last.exposure.endMs) last = frame;
  }
  return pairs;
}

/** The distinction between the trains, or `null` if the frames are one train's or are indistinguishable. */
export function splitOf(frames: readonly HeaderFrame[]): Split | null {
  const pairs = overlapsOf(frames).length;
  if (pairs < PROVING_PAIRS) return null;
  const splits = [...byFolders(frames), ...byNames(frames), bySerial(frames), byLength(frames)].filter(
    (split) =>
      split.groups.length >= 2 &&
      split.groups.length <= MOST_TRAINS &&
      pairs >= BESIDE_SHARE * split.groups.reduce((least, g) => Math.min(least, g.frames.length), Infinity) &&
      split.groups.every((g) => overlapsOf(g.frames).length === 0),
  );
  // The fewest trains that explain the night; among marks that do, the order they are tried in.
  return splits.reduce<Split | null>((best, s) => (!best || s.groups.length < best.groups.length ? s : best), null);
}

/** Warns of trains of a rig file that overlap themselves, with the likely split. */
export function overlapWarnings(frames: readonly (HeaderFrame & { readonly train: string })[]): Warning[] {
  return [...groupBy(frames, (f) => f.train)].flatMap(([train, own]): Warning[] => {
    const pairs = provingOverlaps(own);
    const first = pairs[0];
    if (!first) return [];
    const split = splitOf(own);
    return [
      {
        code: OVERLAP_CODE,
        message:
          `${train} exposes twice at once: ${first[0].file} and ${first[1].file}` +
          (pairs.length > 1 ? ` (and ${pairs.length - 1} more pairs)` : '') +
          '. One camera cannot, so these are two trains or a clock is wrong; ' +
          (split
            ? `the ${split.by} tells them apart: ${describe(split)}`
            : 'nothing in folders, names or headers tells them apart'),
        source: { file: first[1].file },
        count: pairs.length,
      },
    ];
  });
}

/** Overlaps without what may be copies: of the same begin and length, fewer than two cameras would make. */
function provingOverlaps(frames: readonly HeaderFrame[]): Overlap[] {
  const pairs = overlapsOf(frames);
  const others = pairs.filter(
    ([a, b]) => a.exposure?.startMs !== b.exposure?.startMs || a.exposure?.endMs !== b.exposure?.endMs,
  );
  return pairs.length - others.length < PROVING_PAIRS ? others : pairs;
}

/** Says why a train was split. */
export function splitReason(split: Split): string {
  const unit = split.unit === undefined ? '' : ` ${split.unit}`;
  return (
    'one camera cannot expose twice at once, but frames overlap in time: they are ' +
    `${split.groups.length} trains, distinguished by ${split.by} ` +
    `(${split.groups.map((g) => `${g.mark}${unit}: ${g.frames.length}`).join(', ')})`
  );
}

function describe({ groups }: Split): string {
  return groups
    .map((g) =>
      g.globs.length > 0
        ? `frames: [ ${g.globs.map((x) => `"${x}"`).join(', ')} ]`
        : `match: ${JSON.stringify(g.match)}`,
    )
    .join(' and ');
}

function byFolders(frames: readonly HeaderFrame[]): Split[] {
  const depth = frames.reduce((least, f) => Math.min(least, foldersOf(f).length), Infinity);
  return Array.from({ length: Number.isFinite(depth) ? depth : 0 }, (_, level): Split => {
    // A folder's name may recur under each target or date: the name identifies the train, not the whole path.
    const groups = groupBy(frames, (f) => itemAt(foldersOf(f), level));
    return {
      by: 'folder',
      groups: [...groups].map(([mark, members]) => ({
        mark,
        frames: members,
        globs: [`${level === 0 ? '' : `${'*/'.repeat(level)}`}${escaped(mark)}/**`],
        match: {},
      })),
    };
  });
}

function byNames(frames: readonly HeaderFrame[]): Split[] {
  const parts = frames.map((f) => partsOf(f.file));
  const fewest = parts.reduce((least, p) => Math.min(least, p.length), Infinity);
  return Array.from({ length: Number.isFinite(fewest) ? fewest : 0 }, (_, at): Split => {
    const groups = groupBy(frames, (f) => itemAt(partsOf(f.file), at));
    return {
      by: 'file name',
      groups: [...groups].map(([mark, members]) => ({
        mark,
        frames: members,
        globs: [`**/${at === 0 ? '' : '*[-_. ]'}${escaped(mark)}[-_. ]*`],
        match: {},
      })),
    };
  });
}

function bySerial(frames: readonly HeaderFrame[]): Split {
  const keyword = SERIAL_KEYWORDS.find((k) => frames.every((f) => ownValue(f.cards, k) !== undefined));
  return byCard('serial number', keyword, frames, (f) =>
    keyword === undefined ? undefined : ownValue(f.cards, keyword),
  );
}

function byLength(frames: readonly HeaderFrame[]): Split {
  return { ...byCard('exposure length', LENGTH_KEYWORD, frames, (f) => f.exposureSeconds), unit: 's' };
}

function byCard(
  by: Split['by'],
  keyword: string | undefined,
  frames: readonly HeaderFrame[],
  cardOf: (frame: HeaderFrame) => string | number | boolean | undefined,
): Split {
  if (keyword === undefined) return { by, groups: [] };
  const groups = groupBy(frames, (f) => cardOf(f));
  if (groups.has(undefined)) return { by, groups: [] };
  return {
    by,
    groups: [...groups].map(([value, members]) => ({
      mark: String(value),
      frames: members,
      globs: [],
      match: { [keyword]: typeof value === 'number' ? value : String(value) },
    })),
  };
}

function foldersOf(frame: HeaderFrame): string[] {
  return frame.file.split('/').slice(0, -1);
}

/** The parts of a file's name, its ending aside. */
function partsOf(file: string): string[] {
  const base = file.slice(file.lastIndexOf('/') + 1).replace(/\.(fits?|fts)(\.(gz|fz))?$/i, '');
  return base.split(/[-_. ]+/).filter((p) => p !== '');
}

/** A name as a glob that means itself. */
function escaped(text: string): string {
  return text.replace(/[\\*?[\]{}()!+@|]/g, '\\$&');
}
