/** Plain files as sources of bytes: opened, or with a beginning that was read ahead. */
import { closeSync, constants, fstatSync, openSync, readSync, type Stats } from 'node:fs';
import type { Beginning } from './ahead-ring.js';
import type { ByteSource } from './header-memory.js';

/** Without it, opening a named pipe that ends in `.fits` would wait for ever. Absent on Windows. */
export const OPEN_FLAGS = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** An open file on disk; must be closed. */
export class FileSource implements ByteSource {
  private readonly descriptor: number;

  /** @throws the system's error */
  constructor(path: string) {
    this.descriptor = openSync(path, OPEN_FLAGS);
  }

  stat(): Stats {
    return fstatSync(this.descriptor);
  }

  read(into: Buffer, at: number, length: number, position: number): number {
    return readSync(this.descriptor, into, at, length, position);
  }

  close(): void {
    closeSync(this.descriptor);
  }
}

/** A file whose beginning was read ahead; it is opened if more is requested. Must be closed. */
export class BegunSource implements ByteSource {
  private file: FileSource | undefined;

  constructor(
    private readonly path: string,
    readonly beginning: Beginning,
  ) {}

  read(into: Buffer, at: number, length: number, position: number): number {
    const { bytes, filled, sizeBytes } = this.beginning;
    if (position + length <= filled || filled >= sizeBytes)
      return position < filled ? bytes.copy(into, at, position, Math.min(filled, position + length)) : 0;
    this.file ??= new FileSource(this.path);
    return this.file.read(into, at, length, position);
  }

  close(): void {
    this.file?.close();
  }
}
