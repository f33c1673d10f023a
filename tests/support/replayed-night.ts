/**
 * Invented nights with their replay and their findings, as the pipeline joins them. Each is made once for all test
 * files: whoever needs one first leaves it in a folder that the set-up makes for one run of the tests.
 */
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { inject } from 'vitest';
import { findAll } from '../../src/findings/index.js';
import type { Night } from '../../src/model/index.js';
import { replayNight } from '../../src/replay/index.js';
import { worthyNight } from './worthy-night.js';

const nights = new Map<string, Night>();

/** One of the named nights, weighed, replayed and asked every finding; built once. */
export function replayedNight(name: string): Night {
  const night = nights.get(name) ?? kept(name);
  nights.set(name, night);
  return night;
}

function kept(name: string): Night {
  const folder = inject('renderedPages');
  if (folder === undefined) return made(name);
  const file = join(folder, `${name}.replayed`);
  if (existsSync(file)) return deserialize(readFileSync(file)) as Night;
  const night = made(name);
  // Written beside and renamed: another file's tests may look for it meanwhile.
  writeFileSync(`${file}.${process.pid}`, serialize(night));
  renameSync(`${file}.${process.pid}`, file);
  return night;
}

function made(name: string): Night {
  const weighed = worthyNight(name);
  const played: Night = { ...weighed, replay: replayNight(weighed) };
  return { ...played, findings: findAll(played) };
}
