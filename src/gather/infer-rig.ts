/**
 * A rig derived from headers only: trains by telescope, camera and focal length, or by folder; site and targets if the
 * headers contain them.
 */
import { placeZone } from '../config/index.js';
import { slug } from '../files/slug.js';
import { firstToBegin } from './pilot-evidence.js';
import { LENGTH_KEYWORD, SERIAL_KEYWORDS, splitOf, splitReason } from './self-overlap.js';
import { markedGroups, TELLTALE_KEYWORDS, withoutOdd } from './telltales.js';
import type { HeaderMatch, Rig, TargetConfig, TrainConfig } from '../config/index.js';
import { renamingReason, withRenamedJoined } from './renamed-trains.js';
import {
  circularMedianDeg,
  DEFAULT_RULES,
  groupBy,
  itemAt,
  median,
  MOST_TRAINS,
  targetKey,
  type HeaderFrame,
  type Site,
  type Warning,
} from '../model/index.js';

/** A train's id is no longer than this. */
const ID_LENGTH = 24;

/** Keywords `inferRig` needs raw values of. */
export const INFERENCE_KEYWORDS: readonly string[] = [...TELLTALE_KEYWORDS, ...SERIAL_KEYWORDS, LENGTH_KEYWORD];

interface Group {
  readonly frames: HeaderFrame[];
  readonly values: HeaderMatch;
  /** The mark that distinguishes it from others with the same values: a folder's name. */
  readonly name: string | null;
  readonly globs: readonly string[];
}

/**
 * Works out trains, site and targets from the frames. The first train is taken for the pilot: the one that begins a
 * little before the others, else the one with most frames.
 */
export function inferRig(frames: readonly HeaderFrame[]): Rig {
  const lights = frames.filter((f) => f.kind === 'light');
  const groups = firstBegunFirst(
    withRenamedJoined(groupFrames(lights.length > 0 ? lights : frames))
      .groups.flatMap(apart)
      // Frames of further ones belong to no train, and are reported so when frames are assigned.
      .slice(0, MOST_TRAINS),
  );
  const ids = uniqueIds(groups);
  return {
    site: inferSite(frames),
    darkness: 'nautical',
    trains: groups.map((group, i) => toTrain(group, ids[i] ?? `train-${i + 1}`, i === 0, groups)),
    guiding: null,
    targets: inferTargets(lights),
    rules: DEFAULT_RULES,
    keywords: {},
    filterAliases: {},
    origin: 'headers',
  };
}

function firstBegunFirst(groups: readonly Group[]): readonly Group[] {
  const first = firstToBegin(groups.map(({ frames }) => frames));
  return [...groups].sort((a, b) => Number(groups.indexOf(b) === first) - Number(groups.indexOf(a) === first));
}

function groupFrames(frames: readonly HeaderFrame[]): Group[] {
  const { groups, marks } = markedGroups(frames);
  const only = groups[0];
  if (groups.length === 1 && only && Object.keys(only.values).length === 0) return groupByFolder(only.frames);
  return withoutOdd(groups, marks)
    .map(
      (g): Group => ({
        frames: [...g.frames],
        // Lacking a keyword is a distinction as well: its value is empty.
        values: Object.fromEntries(marks.map((mark) => [mark, g.values[mark] ?? ''])),
        name: null,
        globs: [],
      }),
    )
    .sort((a, b) => b.frames.length - a.frames.length || compare(a.frames[0]?.file, b.frames[0]?.file));
}

/**
 * The headers are not informative: the folder of the frames is the only distinction, at the first level where folders
 * differ.
 */
function groupByFolder(frames: readonly HeaderFrame[]): Group[] {
  const shortest = frames.reduce((least, f) => Math.min(least, f.file.split('/').length - 1), Infinity);
  for (let level = 0; level < shortest && frames.length > 0; level++) {
    const byFolder = groupBy(frames, (f) =>
      f.file
        .split('/')
        .slice(0, level + 1)
        .join('/'),
    );
    if (byFolder.size > 1) {
      return [...byFolder].map(([folder, members]) => ({
        frames: members,
        values: {},
        name: folder.split('/').at(-1) ?? folder,
        globs: [`${folder}/**`],
      }));
    }
  }
  return [{ frames: [...frames], values: {}, name: null, globs: [] }];
}

/** Frames that overlap in time belong to several trains, whatever their headers have in common. */
function apart(group: Group): Group[] {
  const split = splitOf(group.frames);
  if (!split) return [group];
  return split.groups.map((part) => ({
    frames: [...part.frames],
    values: { ...group.values, ...part.match },
    name: part.mark,
    globs: [...group.globs, ...part.globs].slice(-1),
  }));
}

/** Why frames that the headers call one train's were taken for several, and several trains' for one's. */
export function inferenceWarnings(frames: readonly HeaderFrame[]): Warning[] {
  const { groups, renamings } = withRenamedJoined(groupFrames(frames.filter((f) => f.kind === 'light')));
  return [
    ...renamings.map((renaming) => ({ code: 'train-renamed', message: renamingReason(renaming) })),
    ...groups.flatMap((group) => {
      const split = splitOf(group.frames);
      return split ? [{ code: 'trains-distinguished', message: splitReason(split) }] : [];
    }),
  ];
}

function uniqueIds(groups: readonly Group[]): string[] {
  const used = new Set<string>();
  return groups.map((group, i) => {
    const first = group.frames[0];
    const base =
      slug(group.name ?? '', ID_LENGTH) ||
      slug(String([group.values.TELESCOP ?? ''].flat()[0]), ID_LENGTH) ||
      slug(String([group.values.INSTRUME ?? ''].flat()[0]), ID_LENGTH) ||
      slug(groups.length === 1 ? (first?.telescope ?? '') : '', ID_LENGTH) ||
      `train-${i + 1}`;
    let id = base;
    for (let n = 2; used.has(id); n++) id = `${base}-${n}`;
    used.add(id);
    return id;
  });
}

function toTrain(group: Group, id: string, first: boolean, groups: readonly Group[]): TrainConfig {
  const fact = <K extends 'focalLengthMm' | 'apertureMm' | 'pixelSizeUm'>(key: K) =>
    group.frames.find((f) => f[key] !== undefined)?.[key];
  return {
    id,
    role: first ? 'pilot' : 'companion',
    focalLengthMm: fact('focalLengthMm'),
    apertureMm: fact('apertureMm'),
    pixelSizeUm: fact('pixelSizeUm'),
    filterWidthsNm: {},
    filterWavelengthsNm: {},
    frames:
      group.globs.length > 0
        ? group.globs
        : groups.length === 1 && Object.keys(group.values).length === 0
          ? ['**/*']
          : [],
    match: group.values,
    logs: [],
  };
}

function inferSite(frames: readonly HeaderFrame[]): Site | null {
  const site = frames.find((f) => f.site !== undefined)?.site;
  if (site === undefined) return null;
  return {
    name: 'site from the headers',
    latitudeDeg: site.latitudeDeg,
    longitudeDeg: site.longitudeDeg,
    elevationM: site.elevationM,
    timezone: placeZone(site.latitudeDeg, site.longitudeDeg),
    minimumAltitudeDeg: 25,
    horizon: [],
  };
}

function inferTargets(lights: readonly HeaderFrame[]): TargetConfig[] {
  const placed = lights.flatMap(({ target, pointing }) =>
    target === undefined || pointing === undefined ? [] : [{ target, ...pointing }],
  );
  const byName = groupBy(placed, ({ target }) => targetKey(target));
  return [...byName.values()].map((members) => ({
    name: itemAt(members, 0).target,
    aliases: [],
    raDeg: circularMedianDeg(members.map(({ raDeg }) => raDeg)),
    decDeg: median(members.map(({ decDeg }) => decDeg)),
    origin: 'headers',
    goals: { hours: {}, perTrain: {} },
  }));
}

function compare(a: string | undefined, b: string | undefined): number {
  return (a ?? '') < (b ?? '') ? -1 : 1;
}
