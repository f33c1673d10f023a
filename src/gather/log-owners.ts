/**
 * The owner of a log before it is described: from its name, the frames in its folder, frame names in it, exposures with
 * matching begins, and the trains, filters and targets that it names.
 */
import { closeSync, openSync, readSync } from 'node:fs';
import { join } from 'node:path';
import type { TrainConfig } from '../config/index.js';
import { countOf, increment, itemAt, type HeaderFrame } from '../model/index.js';
import type { SessionFile } from './session-files.js';

/** A train, and the evidence that a log belongs to it: a clause; absent if the log's name shows it. */
export interface LogOwner {
  readonly train: string;
  readonly by?: string;
}

/** A train's lights, and what identifies them. */
export interface OwnFrames {
  readonly train: TrainConfig;
  readonly lights: readonly HeaderFrame[];
}

/** Number of bytes examined of each log. */
const LOOKED_AT = 2 ** 20;
/** Lights whose begins are looked for in a log, spread over the night. */
const MOST_LIGHTS = 60;
/** Minimum number of matches, ratio to any other train's, and fraction of all. */
const FEWEST_BEGINS = 5;
const CLEARLY = 2;
const LEAST_SHARE = 0.5;
/** A line is written within this many seconds of the begin in the header. */
const NEAR_S = 2;
const DAY_S = 86_400;
/** Clocks of zones differ by quarters of an hour. */
const QUARTER_S = 900;
/** Mentions that are no chance. */
const FEWEST_MENTIONS = 2;

/** The owner of each log; logs without evidence are left out. */
export function logOwners(
  root: string,
  logs: readonly SessionFile[],
  trains: readonly OwnFrames[],
): ReadonlyMap<string, LogOwner> {
  return new Map(
    logs.flatMap(({ path }): [string, LogOwner][] => {
      const owner = trains.length > 1 ? ownerOf(root, path, trains) : undefined;
      return owner ? [[path, owner]] : [];
    }),
  );
}

function ownerOf(root: string, path: string, trains: readonly OwnFrames[]): LogOwner | undefined {
  const named = only(trains, ({ train: { id } }) => path.toLowerCase().includes(id.toLowerCase()));
  if (named) return { train: named.train.id };
  const beside = byFolder(path, trains);
  if (beside) return { train: beside.train.id, by: 'it is in the folder of this train’s frames' };
  const text = /\.gz$/i.test(path) ? '' : beginningOf(join(root, path)).toLowerCase();
  if (text === '') return undefined;
  const ways = [
    [byNames, 'it names this train’s frames'],
    [byBegins, 'this train’s frames begin at the times it gives'],
    [byTrainWords, 'it names this train'],
    [byWords, 'it names filters or targets of this train alone'],
  ] as const;
  for (const [way, by] of ways) {
    const found = way(text, trains);
    if (found) return { train: found.train.id, by };
  }
  return undefined;
}

/** The one of which it is true; `undefined` where it is of several. */
function only<T>(items: readonly T[], isTrue: (item: T) => boolean): T | undefined {
  const [first, second] = items.filter(isTrue);
  return second === undefined ? first : undefined;
}

/** The only train with frames in the nearest ancestor folder of the log that has any, excluding the session's own. */
function byFolder(path: string, trains: readonly OwnFrames[]): OwnFrames | undefined {
  for (let end = path.lastIndexOf('/'); end > 0; end = path.lastIndexOf('/', end - 1)) {
    const folder = path.slice(0, end + 1);
    const under = trains.filter(({ lights }) => lights.some(({ file }) => file.startsWith(folder)));
    if (under.length > 0) return under.length === 1 ? under[0] : undefined;
  }
  return undefined;
}

function byNames(text: string, trains: readonly OwnFrames[]): OwnFrames | undefined {
  return most(trains, ({ lights }) => {
    const found = lights.filter(({ file }) => {
      const name = (file.split('/').at(-1) ?? file).replace(/(\.(fits?|fts|fz|gz))+$/i, '').toLowerCase();
      return name.length > 3 && text.includes(name);
    });
    return found.length >= FEWEST_MENTIONS ? found.length : 0;
  });
}

/** By begins of exposures as times of day, whatever zone the log uses, as long as it is constant. */
function byBegins(text: string, trains: readonly OwnFrames[]): OwnFrames | undefined {
  const written = new Uint8Array(DAY_S);
  for (const [, h = '', m = '', s = ''] of text.matchAll(/(?<!\d)([01]?\d|2[0-3]):([0-5]\d):([0-5]\d)(?!\d)/g)) {
    const at = 3600 * Number(h) + 60 * Number(m) + Number(s);
    for (let near = -NEAR_S; near <= NEAR_S; near++) written[(at + near + DAY_S) % DAY_S] = 1;
  }
  return most(trains, ({ lights }) => {
    const begins = spread(lights.flatMap(({ exposure }) => (exposure ? [Math.round(exposure.startMs / 1000)] : [])));
    let best = 0;
    for (let zone = 0; zone < DAY_S; zone += QUARTER_S) {
      const found = begins.filter((at) => written[(at + zone) % DAY_S] === 1).length;
      best = Math.max(best, found);
    }
    return best >= FEWEST_BEGINS && best >= LEAST_SHARE * begins.length ? best / begins.length : 0;
  });
}

function byTrainWords(text: string, trains: readonly OwnFrames[]): OwnFrames | undefined {
  return byMentions(text, trains, ({ train: { id, match }, lights }) => [
    id,
    ...Object.values(match)
      .flat()
      .filter((value) => typeof value === 'string'),
    ...lights.flatMap(({ telescope, instrument }) => [telescope, instrument]),
  ]);
}

function byWords(text: string, trains: readonly OwnFrames[]): OwnFrames | undefined {
  return byMentions(text, trains, ({ lights }) => lights.flatMap(({ filter, target }) => [filter, target]));
}

/** By words in a log that belong to one train only. Single letters, such as the filter L, match by chance. */
function byMentions(
  text: string,
  trains: readonly OwnFrames[],
  wordsOf: (train: OwnFrames) => readonly (string | number | undefined)[],
): OwnFrames | undefined {
  const owners = new Map<string, Set<OwnFrames>>();
  for (const train of trains)
    for (const word of new Set(
      wordsOf(train).flatMap((one) => (one === undefined ? [] : [String(one).trim().toLowerCase()])),
    ))
      if (word.length > 1) owners.set(word, (owners.get(word) ?? new Set()).add(train));
  const mentions = new Map<OwnFrames, number>();
  for (const [word, own] of owners) {
    const [train] = own;
    if (train && own.size === 1) increment(mentions, train, countWord(text, word));
  }
  return (
    only(trains, (train) => countOf(mentions, train) > 0) &&
    only(trains, (train) => countOf(mentions, train) >= FEWEST_MENTIONS)
  );
}

/** How often a text has a word without an adjacent letter or digit. */
function countWord(text: string, word: string): number {
  let count = 0;
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + word.length)) {
    const isApart = (letter: string | undefined): boolean => letter === undefined || !/[\p{L}\p{N}]/u.test(letter);
    if (isApart(text[at - 1]) && isApart(text[at + word.length])) count++;
  }
  return count;
}

/** The train with most, if no other has half of it. */
function most(trains: readonly OwnFrames[], count: (train: OwnFrames) => number): OwnFrames | undefined {
  const [first, second] = trains.map((train) => ({ train, n: count(train) })).sort((a, b) => b.n - a.n);
  if (!first || first.n === 0) return undefined;
  return second && first.n < CLEARLY * second.n ? undefined : first.train;
}

function spread(values: readonly number[]): readonly number[] {
  const count = Math.min(MOST_LIGHTS, values.length);
  return Array.from({ length: count }, (_, i) => itemAt(values, Math.floor((i * values.length) / count)));
}

/** The first part of a file; empty where it cannot be read. */
export function beginningOf(path: string, bytesAtMost = LOOKED_AT): string {
  try {
    const file = openSync(path, 'r');
    try {
      const bytes = Buffer.alloc(bytesAtMost);
      return bytes.subarray(0, readSync(file, bytes, 0, bytesAtMost, 0)).toString('utf8');
    } finally {
      closeSync(file);
    }
  } catch {
    return '';
  }
}
