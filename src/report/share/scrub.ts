import { calibrationOf, warningsOf, type Night } from '../../model/index.js';

/** What may not leave, found in the night itself. */
export interface Secrets {
  /** Names of site, users and computers, serial numbers; compared without regard to case. */
  readonly words: readonly string[];
  /** Paths as inputs and sources have them. */
  readonly paths: readonly string[];
  /** Latitude and longitude, degrees: figures that say the same are taken out too. */
  readonly coordinates: readonly number[];
}

const SHORTEST_WORD = 3;

const USER_IN_PATH = /(?:\/home\/|\/Users\/|[A-Za-z]:[\\/](?:Users|Documents and Settings)[\\/])([^\\/\s"'<>:|]+)/g;
const HOST_IN_SHARE = /(?:^|[\s"'(=])(?:\\\\|smb:\/\/)([^\\/\s"']+)/g;
const USER_AT_HOST = /\b([\w.+-]+)@([\w-]+(?:\.[\w-]+)*)\b/g;
/** Seven or more capitals and digits, five digits at least: how makers number their cameras. Dates are none. */
const SERIAL = /\b(?!20\d{6}(?:T\d{6,9})?\b)(?=[A-Z0-9]*\d[A-Z0-9]*\d[A-Z0-9]*\d[A-Z0-9]*\d[A-Z0-9]*\d)[A-Z0-9]{7,}\b/g;
const NAMED_SERIAL = /\b(?:serial(?:\s*(?:number|no\.?))?|s\/n)\s*[:=#]?\s*([\w-]*\d[\w-]*)/gi;

/** Every text of a night in which a secret may stand. */
function textsOf(night: Night): string[] {
  return [
    ...night.gathered.inputs.map((input) => input.file),
    ...warningsOf(night).flatMap((warning) => [warning.message, warning.source?.file ?? '']),
    ...night.timeline.activities.flatMap((activity) => [
      activity.why ?? '',
      ...activity.sources.map((source) => source.file),
    ]),
    ...[...night.accounts.lights, ...calibrationOf(night)].flatMap(({ file, header, sources }) => [
      file ?? '',
      header?.file ?? '',
      header?.telescope ?? '',
      header?.instrument ?? '',
      header?.software ?? '',
      ...sources.map((source) => source.file),
    ]),
    ...night.accounts.lights.flatMap((frame) =>
      frame.causes.flatMap((cause) => [cause.evidence, ...cause.sources.map((source) => source.file)]),
    ),
    ...night.findings.ranked.flatMap((finding) => finding.evidence),
    ...(night.gathered.guiding?.sources.map((source) => source.file) ?? []),
    ...night.timeline.coolers.map((reading) => reading.source.file),
  ];
}

/** Finds what may not leave: in the site, in paths, and in whatever is said about computers and cameras. */
export function secretsOf(night: Night): Secrets {
  const words = new Set<string>();
  const add = (word: string | undefined): void => {
    if (word !== undefined && word.trim().length >= SHORTEST_WORD) words.add(word.trim());
  };
  const texts = textsOf(night);
  for (const text of texts) {
    for (const match of text.matchAll(USER_IN_PATH)) add(match[1]);
    for (const match of text.matchAll(HOST_IN_SHARE)) add(match[1]);
    for (const match of text.matchAll(USER_AT_HOST)) {
      add(match[1]);
      add(match[2]);
    }
    for (const match of text.matchAll(NAMED_SERIAL)) add(match[1]);
    for (const match of text.matchAll(SERIAL)) add(match[0]);
  }
  add(night.gathered.site?.name);
  const files = [
    ...night.gathered.inputs.map((input) => input.file),
    ...warningsOf(night).flatMap((warning) => warning.source?.file ?? []),
    ...[...night.accounts.lights, ...calibrationOf(night)].flatMap((frame) => frame.file ?? []),
    ...night.timeline.activities.flatMap((activity) => activity.sources.map((source) => source.file)),
  ];
  return {
    words: [...words].sort((a, b) => b.length - a.length),
    paths: [...new Set(files)].filter((file) => /[\\/]/.test(file)).sort((a, b) => b.length - a.length),
    coordinates:
      night.gathered.site === null ? [] : [night.gathered.site.latitudeDeg, night.gathered.site.longitudeDeg],
  };
}

/** The last part of a path. */
export function baseName(path: string): string {
  return (
    path
      .split(/[\\/]/)
      .filter((part) => part !== '')
      .at(-1) ?? path
  );
}

const quoted = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Paths that begin at a root, a drive, a share or a home: all but their last part goes. Spaces end them, for want of a better rule. */
const ROOTED_PATH = /(?:file:\/\/|[A-Za-z]:(?=[\\/])|\\\\|~(?=\/)|(?<![\w.:/])(?=\/[\w.-]+\/))[\w.\-\\/~%+]+/g;
const ADDRESS = /\b(?:\d{1,3}(?:\.\d{1,3}){3}|(?:[0-9a-f]{2}:){5}[0-9a-f]{2})\b/gi;
/** Figures after the word latitude or longitude, or before a point of the compass, whatever their form. */
const NAMED_PLACE =
  /\b((?:site\s+)?(?:lat(?:itude)?|lon(?:g(?:itude)?)?)\b[^\d\n]{0,12}?)[-−+]?\d+(?:[.:°′'″"\s]+\d+(?:\.\d+)?)*[°′'″"]?/gi;
const COMPASS_PLACE = /[-−+]?\d{1,3}(?:[.:°′'″"]\s?\d+(?:\.\d+)?)+[°′'″"]?\s?[NSEW]\b/g;
/** A figure of three decimals or more that is the site's own to a fiftieth of a degree. */
const DECIMAL = /[-−]?\d{1,3}\.\d{3,}/g;
const NEAR_DEG = 0.02;

/**
 * Makes the function that takes secrets out of a text. Paths shrink to their last part; names, serial numbers,
 * network addresses and figures that tell the site's place are replaced by a word in brackets.
 */
export function scrubber({ words, paths, coordinates }: Secrets): (text: string) => string {
  const known =
    words.length === 0 ? null : new RegExp(`(?<![A-Za-z0-9])(?:${words.map(quoted).join('|')})(?![A-Za-z0-9])`, 'gi');
  const inside = paths.length === 0 ? null : new RegExp(paths.map(quoted).join('|'), 'g');
  const isSite = (value: number): boolean =>
    coordinates.some((one) => Math.abs(Math.abs(one) - Math.abs(value)) < NEAR_DEG);
  return (text) => {
    let out = inside === null ? text : text.replace(inside, baseName);
    out = out.replace(ROOTED_PATH, baseName).replace(USER_AT_HOST, '[name]').replace(ADDRESS, '[address]');
    out = out.replace(NAMED_SERIAL, 'serial [number]').replace(SERIAL, '[number]');
    if (known !== null) out = out.replace(known, '[name]');
    return out
      .replace(NAMED_PLACE, '$1[place]')
      .replace(COMPASS_PLACE, '[place]')
      .replace(DECIMAL, (whole) => (isSite(Number(whole.replace('−', '-'))) ? '[place]' : whole));
  };
}
