import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';

/** A rig file, dialect or goals file larger than this is none, bytes. */
export const MAX_CONFIG_BYTES = 4_000_000;

/** A file that is not read: no regular file, or larger than it can be. */
export class UnsuitableFile extends Error {
  override readonly name = 'UnsuitableFile';
}

export interface ReadTextOptions {
  /** A file larger than this is refused, bytes. */
  readonly maxBytes: number;
  /** How messages call the file; its path when absent. */
  readonly name?: string;
}

const ENCODINGS = [
  { mark: [0xff, 0xfe], label: 'utf-16le' },
  { mark: [0xfe, 0xff], label: 'utf-16be' },
] as const;

/**
 * The text of a regular file of bounded size: UTF-8, or UTF-16 if a byte-order mark says so. A pipe or a device, which
 * would never end, is refused immediately.
 *
 * @throws UnsuitableFile when it is no regular file, or too large; the file system's own error, which names the path
 */
export function readTextFile(path: string, options: ReadTextOptions): string {
  return decode(readFileBytes(path, options));
}

/**
 * The bytes of a regular file of bounded size, under the same conditions.
 *
 * @throws UnsuitableFile when it is no regular file, or too large; the file system's own error, which names the path
 */
export function readFileBytes(path: string, options: ReadTextOptions): Buffer {
  return withFile(path, options, (descriptor, sizeBytes) => {
    const bytes = Buffer.allocUnsafe(sizeBytes);
    return bytes.subarray(0, readUpTo(descriptor, bytes, 0));
  });
}

/** Shared buffer for reading files whose bytes are not kept: fresh memory costs as much as the reading. */
let piece: Buffer | undefined;
const PIECE_BYTES = 1 << 18;

/**
 * Hands over the bytes of a regular file of bounded size one piece after another, under the same conditions.
 *
 * @param take a piece is there only while it is taken
 */
export function readInPieces(path: string, options: ReadTextOptions, take: (piece: Uint8Array) => void): void {
  withFile(path, options, (descriptor, sizeBytes) => {
    const buffer = (piece ??= Buffer.allocUnsafeSlow(PIECE_BYTES));
    for (let from = 0; from < sizeBytes; from += buffer.length) {
      const room = buffer.subarray(0, Math.min(buffer.length, sizeBytes - from));
      const length = readUpTo(descriptor, room, from);
      take(room.subarray(0, length));
      if (length < room.length) break;
    }
  });
}

/** @param use gets a regular file of bounded size, and its size when it was opened */
function withFile<T>(
  path: string,
  { maxBytes, name = path }: ReadTextOptions,
  use: (descriptor: number, sizeBytes: number) => T,
): T {
  // Without O_NONBLOCK, opening a named pipe would wait for a writer.
  const descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stat = fstatSync(descriptor);
    if (!stat.isFile())
      throw new UnsuitableFile(
        `${name} is ${stat.isDirectory() ? 'a folder' : 'not a regular file'}; name a text file`,
      );
    if (stat.size > maxBytes)
      throw new UnsuitableFile(
        `${name} is larger than ${Math.round(maxBytes / 1e6)} MB and was not read; it cannot be a file of this kind`,
      );
    return use(descriptor, stat.size);
  } finally {
    closeSync(descriptor);
  }
}

/**
 * Fills a buffer, which is no larger than the file was at opening: one that grows meanwhile is not followed.
 *
 * @returns how much of it was filled
 */
function readUpTo(descriptor: number, bytes: Buffer, from: number): number {
  let length = 0;
  while (length < bytes.length) {
    const read = readSync(descriptor, bytes, length, bytes.length - length, from + length);
    if (read === 0) break;
    length += read;
  }
  return length;
}

function decode(bytes: Buffer): string {
  const marked = ENCODINGS.find(({ mark }) => mark.every((byte, i) => bytes[i] === byte));
  return new TextDecoder(marked?.label ?? 'utf-8').decode(bytes);
}
