import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { type FileDigest, fileDigest } from './file-digest.js';
import type { WarningTally } from './warning-tally.js';

const READ_BYTES = 256 * 1024;

/** A compressed log that unpacks to more than this is no log of one night, bytes. */
const MAX_EXPANDED_BYTES = 2 * 2 ** 30;
/** Text packs to a tenth, dull text to a fiftieth; what packs better than this was made to fill a memory. */
const MAX_RATIO = 200;
/** Below this size the ratio does no harm, bytes. */
const HARMLESS_BYTES = 64 * 2 ** 20;

/**
 * One reading of a file: its bytes up to its size at opening, unpacked when gzipped, and their digest.
 * Reads are synchronous: on a local disk that is several times faster than one promise a block.
 */
export class FileChunks {
  private readonly digest: FileDigest;
  private position = 0;
  private sha = '';

  private constructor(
    private readonly descriptor: number,
    /** Size on disk at opening; anything written later is not read. */
    readonly sizeBytes: number,
    private readonly name: string,
    private readonly tally: WarningTally,
  ) {
    this.digest = fileDigest(descriptor, sizeBytes);
  }

  /**
   * Opens a file.
   *
   * @param name how warnings call it
   * @returns `null`, with a warning, when the path is no readable file
   */
  static open(path: string, name: string, tally: WarningTally): FileChunks | null {
    let descriptor: number | undefined;
    try {
      // Without O_NONBLOCK, opening a named pipe would wait for a writer.
      descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
      const stat = fstatSync(descriptor);
      if (stat.isFile()) return new FileChunks(descriptor, stat.size, name, tally);
      tally.add('unreadable-file', 0, () => `${name} is not a file; check the path in the rig file.`);
    } catch (error) {
      tally.add(
        'unreadable-file',
        0,
        () => `${name} cannot be read (${reason(error)}); check that it exists and may be read.`,
      );
    }
    if (descriptor !== undefined) closeSync(descriptor);
    return null;
  }

  /**
   * The file's bytes, unpacked when gzipped (recognised by its first two bytes, not by the name). Each chunk is valid
   * until the next.
   *
   * @param room destination of chunks that are not unpacked, so that they need not be copied; otherwise memory is
   * allocated
   */
  async *chunks(room: () => Buffer | undefined = () => undefined): AsyncGenerator<Buffer> {
    try {
      if (this.isGzip()) yield* this.unpacked();
      else yield* this.raw(Buffer.allocUnsafeSlow(READ_BYTES), room);
    } finally {
      // The digest is of the whole file, however much of it was of use.
      for (const _ of this.raw(Buffer.allocUnsafeSlow(READ_BYTES)));
      this.sha = await this.digest.end();
      closeSync(this.descriptor);
    }
  }

  /** SHA-256 (hex) of the bytes on disk, once `chunks` has ended. */
  get sha256(): string {
    return this.sha;
  }

  /** Bytes from disk, from where the last call stopped. Without a buffer each chunk may be kept by the caller. */
  private *raw(shared?: Buffer, room: () => Buffer | undefined = () => undefined): Generator<Buffer> {
    while (this.position < this.sizeBytes) {
      const buffer = room() ?? shared ?? Buffer.allocUnsafeSlow(READ_BYTES);
      const wanted = Math.min(READ_BYTES, buffer.length, this.sizeBytes - this.position);
      const bytesRead = this.read(buffer, wanted);
      if (bytesRead === 0) return;
      const chunk = buffer.subarray(0, bytesRead);
      this.position += bytesRead;
      this.digest.update(chunk);
      yield chunk;
    }
  }

  private read(buffer: Buffer, wanted: number): number {
    try {
      const bytesRead = readSync(this.descriptor, buffer, 0, wanted, this.position);
      if (bytesRead === 0) {
        this.tally.add(
          'shrunk-file',
          0,
          () =>
            `${this.name} became shorter while it was read (${this.position} of ${this.sizeBytes} bytes); run ` +
            'the report again when nothing writes to it.',
        );
      }
      return bytesRead;
    } catch (error) {
      this.tally.add(
        'unreadable-file',
        0,
        () => `${this.name} cannot be read beyond byte ${this.position} (${reason(error)}); the part before is used.`,
      );
      return 0;
    }
  }

  private async *unpacked(): AsyncGenerator<Buffer> {
    // Taken only now: most logs are not gzipped, and every module costs start-up time.
    const { Readable } = process.getBuiltinModule('node:stream');
    const { createGunzip } = process.getBuiltinModule('node:zlib');
    const packed = Readable.from(this.raw(), { objectMode: false });
    const gunzip = packed.pipe(createGunzip({ chunkSize: READ_BYTES }));
    let expanded = 0;
    try {
      for await (const chunk of gunzip) {
        if (!Buffer.isBuffer(chunk)) continue;
        yield chunk;
        expanded += chunk.length;
        if (expanded > Math.max(HARMLESS_BYTES, Math.min(MAX_EXPANDED_BYTES, this.sizeBytes * MAX_RATIO))) {
          this.tally.add(
            'expanded-too-far',
            0,
            () =>
              `${this.name} unpacks to more than ${MAX_RATIO} times its size, ` +
              `or ${MAX_EXPANDED_BYTES / 2 ** 30} GiB; the rest is left out. If it really is a log, unpack it first.`,
          );
          break;
        }
      }
    } catch (error) {
      this.tally.add(
        'broken-gzip',
        0,
        () =>
          `${this.name} cannot be unpacked completely (${reason(error)}); the part before the damage is used. Pack ` +
          'it again if you can.',
      );
    } finally {
      packed.destroy();
    }
  }

  private isGzip(): boolean {
    const magic = Buffer.alloc(2);
    return this.sizeBytes >= 2 && this.readAt0(magic) && magic[0] === 0x1f && magic[1] === 0x8b;
  }

  private readAt0(target: Buffer): boolean {
    try {
      return readSync(this.descriptor, target, 0, target.length, 0) === target.length;
    } catch {
      return false;
    }
  }
}

function reason(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return 'code' in error && typeof error.code === 'string' ? error.code : error.message;
}
