/**
 * Summaries of an archive's records, cached between runs: one file for each archive in the user's cache, never in the
 * archive itself. A record is read again when its file has changed in any way, and all of them when the program has.
 */
import { createHash } from 'node:crypto';
import { type BigIntStats, readdirSync, realpathSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { makeFolder } from '../../files/make-folder.js';
import { readTextFile } from '../../files/read-text.js';
import { writeAtomically } from '../../files/write-atomically.js';
import type { Counting } from '../../model/index.js';
import { survivesJson } from './kept-sums.js';
import type { SummedNight } from './sum-file.js';

/** Location and owner of the cached summaries. */
export interface Remembering {
  /** The user's cache folder for them; created if missing. */
  readonly folder: string;
  /** Identifies a build of the program: other code may summarise differently. */
  readonly build: string;
  /** When this run began, UTC ms. */
  readonly nowMs: number;
}

interface Entry extends SummedNight {
  readonly stamp: string;
}

/** Maximum number of cached archives; beyond it the least recently used are dropped. */
const MOST_ARCHIVES = 20;
/** Some 2 kB a night: a hundred thousand nights. */
const MOST_BYTES = 256_000_000;
/**
 * Some disks keep times in steps of two seconds: a file changed this shortly before the run may change again
 * undetectably.
 */
const SETTLED_MS = 3000;
const OWN_NAME = /^[0-9a-f]{40}\.json$/;

export class RememberedNights {
  private readonly path: string;
  private readonly known: ReadonlyMap<string, Entry>;
  private readonly now = new Map<string, Entry>();

  constructor(
    private readonly archive: string,
    counting: Counting,
    private readonly how: Remembering,
  ) {
    const name = digest(JSON.stringify([realpathSync(archive), counting])).slice(0, 40);
    this.path = join(how.folder, `${name}.json`);
    this.known = entriesOf(this.path, how.build);
  }

  /** The summary of a file, if it is still the same file. */
  of(file: string): SummedNight | undefined {
    const entry = this.known.get(file);
    if (entry === undefined || entry.stamp !== this.stampOf(file)) return undefined;
    this.now.set(file, entry);
    return entry;
  }

  /** Call it before the file is read: what is read afterwards is at least as new. */
  stampOf(file: string): string | null {
    const stat = statOf(join(this.archive, file));
    if (stat === null) return null;
    const { size, mtimeNs, ctimeNs, ino } = stat;
    const changedMs = Math.max(Number(mtimeNs), Number(ctimeNs)) / 1e6;
    return changedMs > this.how.nowMs - SETTLED_MS ? null : [size, mtimeNs, ctimeNs, ino].join(' ');
  }

  /** @param stamp of the file before it was read; with `null` nothing is remembered */
  remember(file: string, stamp: string | null, night: SummedNight): void {
    if (stamp === null || this.now.get(file)?.stamp === stamp) return;
    if (survivesJson(night)) this.now.set(file, { stamp, ...night });
  }

  /** Writes the cache. Failure is ignored. */
  async save(): Promise<void> {
    if (this.now.size === this.known.size && [...this.now].every(([file, entry]) => this.known.get(file) === entry))
      return;
    try {
      makeFolder(this.how.folder, 0o700);
      const body = JSON.stringify([this.how.build, [...this.now]]);
      await writeAtomically(this.path, `${digest(body)}\n${body}`);
      forgetOldest(this.how.folder);
    } catch {
      // The next run reads the records again.
    }
  }
}

function entriesOf(path: string, build: string): ReadonlyMap<string, Entry> {
  try {
    const text = readTextFile(path, { maxBytes: MOST_BYTES });
    const newline = text.indexOf('\n');
    const body = text.slice(newline + 1);
    if (text.slice(0, newline) !== digest(body)) return new Map();
    const [madeBy, entries]: unknown[] = JSON.parse(body);
    // Complete, by its digest, and written by this very build: the content is what was stored.
    return madeBy === build && Array.isArray(entries) ? new Map(entries as [string, Entry][]) : new Map();
  } catch {
    return new Map();
  }
}

function forgetOldest(folder: string): void {
  const names = readdirSync(folder).filter((name) => OWN_NAME.test(name));
  if (names.length <= MOST_ARCHIVES) return;
  const byAge = names
    .map((name) => ({ name, changedMs: statSync(join(folder, name)).mtimeMs }))
    .sort((a, b) => a.changedMs - b.changedMs);
  for (const { name } of byAge.slice(0, names.length - MOST_ARCHIVES)) rmSync(join(folder, name), { force: true });
}

function digest(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

/** `null` for a missing file, or a dangling link: whoever reads it reports that. */
function statOf(path: string): BigIntStats | null {
  try {
    return statSync(path, { bigint: true });
  } catch {
    return null;
  }
}
