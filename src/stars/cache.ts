/**
 * Measurements cached between runs, one file each. A file is written next to its final path and moved there, so that
 * concurrent runs never see half of one; damaged files and those of another version are measured again.
 */
import { createHash, randomBytes } from 'node:crypto';
import { readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeFolder } from '../files/make-folder.js';
import { cacheFolder } from '../files/cache-folder.js';
import { readTextFile } from '../files/read-text.js';
import type { StarReading } from '../model/index.js';
import { isMeasurement } from './cached-measurement.js';
import type { FrameMeasurement, FrameToMeasure } from './types.js';

/** Incremented whenever the same pixels would give different numbers. */
export const MEASUREMENT_VERSION = 13;
const ENTRIES_MAX = 20_000;
const DIGEST = 'sha256';
/** Two hundred stars with all figures written out take a tenth of it. */
const MOST_BYTES = 1_000_000;
/** Our own file names: anything else in the folder is not ours to remove. */
const ENTRY = /^[0-9a-f]{40}\.json(\.[0-9a-f]{12}\.part)?$/;

/** The user's cache folder for star measurements. */
export function defaultCacheFolder(
  environment: Readonly<Record<string, string | undefined>>,
  platform: NodeJS.Platform,
  home?: string,
): string {
  return cacheFolder('stars', environment, platform, home);
}

export class StarCache {
  private readonly folder: string;
  private writable = true;

  constructor(folder: string) {
    this.folder = join(folder, `v${MEASUREMENT_VERSION}`);
  }

  read(frame: FrameToMeasure, by: StarReading): FrameMeasurement | undefined {
    try {
      const text = readTextFile(this.pathOf(frame, by), { maxBytes: MOST_BYTES });
      const newline = text.indexOf('\n');
      const body = text.slice(newline + 1);
      if (text.slice(0, newline) !== digest(body)) return undefined;
      const value: unknown = JSON.parse(body);
      return isMeasurement(value) ? value : undefined;
    } catch {
      return undefined;
    }
  }

  /** Caches a measurement; returns whether it could. After a failure nothing more is tried. */
  write(frame: FrameToMeasure, by: StarReading, measurement: FrameMeasurement): boolean {
    if (!this.writable) return false;
    const path = this.pathOf(frame, by);
    const draft = `${path}.${randomBytes(6).toString('hex')}.part`;
    try {
      makeFolder(this.folder);
      const body = JSON.stringify(measurement);
      writeFileSync(draft, `${digest(body)}\n${body}`, { flag: 'wx' });
      renameSync(draft, path);
    } catch {
      this.writable = false;
      discard(draft);
    }
    return this.writable;
  }

  /** Removes the oldest measurements beyond a number that no season reaches. */
  prune(entriesMax: number = ENTRIES_MAX): void {
    try {
      const names = readdirSync(this.folder).filter((name) => ENTRY.test(name));
      if (names.length <= entriesMax) return;
      const byAge = names
        .map((name) => ({ name, changedMs: statSync(join(this.folder, name)).mtimeMs }))
        .sort((a, b) => a.changedMs - b.changedMs);
      for (const { name } of byAge.slice(0, names.length - Math.floor(entriesMax * 0.8)))
        rmSync(join(this.folder, name), { force: true });
    } catch {
      // Another run tidies up simultaneously.
    }
  }

  private pathOf(frame: FrameToMeasure, by: StarReading): string {
    const { path, sizeBytes, changedMs, binning, electronsPerAdu, saturationAdu, bayerPattern } = frame;
    const key = [by, path, sizeBytes, changedMs, binning, electronsPerAdu, saturationAdu, bayerPattern];
    return join(this.folder, `${digest(JSON.stringify(key)).slice(0, 40)}.json`);
  }
}

function discard(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // Its folder could not be created.
  }
}

function digest(text: string): string {
  return createHash(DIGEST).update(text).digest('hex');
}
