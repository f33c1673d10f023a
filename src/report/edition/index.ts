/**
 * An output folder is one edition: all its files are from one run. They are written next to the old ones and swapped in
 * as a set; files of others in the folder are never touched.
 */
import { createHash, randomBytes, type Hash } from 'node:crypto';
import { existsSync, lstatSync, readdirSync, rmdirSync, rmSync } from 'node:fs';
import { utimes, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { makeFolder } from '../../files/make-folder.js';
import { withLock } from '../../files/lock.js';
import { namedError } from '../../files/named-error.js';
import { onStop } from '../../files/on-stop.js';
import { isAlive } from '../../files/processes.js';
import {
  isEditionPath,
  leavesFolder,
  MANIFEST,
  manifestText,
  readManifest,
  type EditionKind,
  type Manifest,
} from './manifest.js';
import { finishSwap, NEW, swapIn } from './swap.js';

export type { EditionKind } from './manifest.js';

/** The output folder holds something that must not be overwritten without permission. */
export class OutputRefused extends Error {
  override readonly name = 'OutputRefused';
}

export interface EditionOptions {
  readonly kind: EditionKind;
  /** The content of the edition, in words: the nights' dates, for example. */
  readonly of: string;
  /** Replace files of the same names that are not nightledger's. */
  readonly force?: boolean;
  /**
   * Modification time of the files, UTC ms; absent: when they are written. A shared edition has only the date: after
   * `--wait`, the hour at which it is written is the sunrise.
   */
  readonly writtenMs?: number;
}

/** What an edition is, in words. */
const WHAT: Readonly<Record<EditionKind, string>> = { night: 'the report', progress: 'the progress', plan: 'the plan' };

const LOCK = { file: '.nightledger.lock', what: 'the output folder' };

/** Staging folders of editions: `.nightledger-PID-RANDOM`. */
const STAGING = /^\.nightledger-(\d+)-[0-9a-f]+$/;

/** A set of files to be swapped into a folder. */
export class Edition {
  private readonly hashes = new Map<string, string>();
  private readonly staging: string;
  private readonly forget: () => void;

  private constructor(
    private readonly folder: string,
    private readonly options: EditionOptions,
    private readonly before: Manifest | null,
    private readonly isNewFolder: boolean,
  ) {
    this.staging = join(folder, `.nightledger-${process.pid}-${randomBytes(6).toString('hex')}`);
    makeFolder(join(this.staging, NEW));
    this.forget = onStop(() => this.clear());
  }

  /**
   * Begins an edition; the folder's present content is unchanged until {@link commit}.
   *
   * @param folder absolute; created if missing
   * @throws OutputRefused when the folder holds an edition of another kind; FolderLocked; the file system's own error
   */
  static async open(folder: string, options: EditionOptions): Promise<Edition> {
    const isNewFolder = !existsSync(folder);
    const before = await withLock(
      folder,
      () => {
        tidy(folder);
        return readManifest(folder);
      },
      LOCK,
    );
    if (before && before.kind !== options.kind && !options.force)
      throw new OutputRefused(
        `${folder} holds ${WHAT[before.kind]} of ${before.of}; name another folder, or replace it with --force`,
      );
    return new Edition(folder, options, before, isNewFolder);
  }

  /**
   * Checks that files may be written, before the effort of creating them.
   *
   * @param paths relative to the folder, forward slashes
   * @throws OutputRefused naming every file that already exists and is not nightledger's
   */
  claim(paths: readonly string[]): void {
    const foreign = paths.filter((path) => !this.mayWrite(path));
    if (foreign.length === 0) return;
    const list = foreign.slice(0, 5).join(', ') + (foreign.length > 5 ? `, … (${foreign.length} in all)` : '');
    throw new OutputRefused(
      `${this.folder} holds ${list}, which nightledger did not make; name another folder, or replace ` +
        `${foreign.length === 1 ? 'it' : 'them'} with --force`,
    );
  }

  /** Reserves a file's position among the edition's files before its content exists; {@link add} must follow. */
  announce(path: string): void {
    this.hashes.set(path, '');
  }

  /**
   * Adds a file to the edition.
   *
   * @param path relative to the folder, forward slashes
   * @param content text (as UTF-8), whole or in pieces, or bytes
   * @throws OutputRefused; the file system's own error, a full disk above all
   */
  async add(path: string, content: string | Uint8Array | Iterable<string>): Promise<void> {
    this.claim([path]);
    const file = join(this.staging, NEW, path);
    const hash = createHash('sha256');
    const whole = typeof content === 'string' || content instanceof Uint8Array;
    await this.write(file, hashed(whole ? [content] : content, hash), path);
    this.hashes.set(path, hash.digest('hex'));
  }

  /**
   * Replaces the previous edition with this one.
   *
   * @returns absolute paths of its files, in the order they were added
   * @throws FileInUse or the file system's own error; the folder is then unchanged
   */
  async commit(): Promise<string[]> {
    const { kind, of } = this.options;
    const manifest = Buffer.from(manifestText({ kind, of, files: this.hashes }));
    await this.write(join(this.staging, NEW, MANIFEST), [manifest], MANIFEST);
    const paths = [...this.hashes.keys()];
    await withLock(
      this.folder,
      () => {
        // Read again: another run may have written its own edition here meanwhile.
        const before = readManifest(this.folder);
        swapIn(this.folder, this.staging, {
          leaving: [...new Set([...(before?.files.keys() ?? []), ...paths])],
          coming: [...paths, MANIFEST],
        });
      },
      LOCK,
    );
    this.forget();
    return paths.map((path) => join(this.folder, path));
  }

  /** Abandons the edition; the folder is unchanged. */
  discard(): void {
    this.forget();
    this.clear();
  }

  /** @param path the name for an error, relative to the folder: the staging location means nothing to users */
  private async write(file: string, pieces: Iterable<Uint8Array>, path: string): Promise<void> {
    try {
      makeFolder(dirname(file));
      await writeFile(file, pieces, { flag: 'wx' });
      const { writtenMs } = this.options;
      if (writtenMs !== undefined) await utimes(file, writtenMs / 1000, writtenMs / 1000);
    } catch (error) {
      throw namedError(error, join(this.folder, path));
    }
  }

  private clear(): void {
    rmSync(this.staging, { recursive: true, force: true });
    if (!this.isNewFolder) return;
    try {
      rmdirSync(this.folder);
    } catch {
      // Something was added to it meanwhile.
    }
  }

  private mayWrite(path: string): boolean {
    if (!isEditionPath(path)) throw new Error(`${path} is not a valid name for a file of a report`);
    if (leavesFolder(this.folder, path)) return false;
    const stat = lstatSync(join(this.folder, path), { throwIfNoEntry: false });
    if (!stat) return true;
    if (stat.isDirectory()) return false;
    // Another run may have written its edition here meanwhile.
    const isOurs = (manifest: Manifest | null): boolean => manifest?.files.has(path) === true;
    return this.options.force === true || isOurs(this.before) || isOurs(readManifest(this.folder));
  }
}

/** Completes or removes what killed runs have left. */
function tidy(folder: string): void {
  for (const name of readdirSync(folder)) {
    const pid = STAGING.exec(name)?.[1];
    if (pid !== undefined && !isAlive(Number(pid)) && lstatSync(join(folder, name)).isDirectory())
      finishSwap(folder, join(folder, name));
  }
}

/** The bytes of a content's pieces, each hashed as it passes. */
function* hashed(pieces: Iterable<string | Uint8Array>, hash: Hash): Iterable<Uint8Array> {
  for (const piece of pieces) {
    const bytes = typeof piece === 'string' ? Buffer.from(piece) : piece;
    hash.update(bytes);
    yield bytes;
  }
}
