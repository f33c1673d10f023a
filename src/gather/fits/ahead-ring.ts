/**
 * Memory shared by two threads: one reads the beginnings of files into it, in order, and the other consumes them.
 * Whichever comes to a run of files first takes it; neither waits for the other for more than microseconds.
 */

/** FITS block size; not imported from the card reader, which the reading thread need not load. */
const BLOCK_BYTES = 2880;
/** Number of files taken at once. A power of two. */
const RUN = 16;
/** Beginnings held at a time. A power of two, and several runs. */
const SLOTS = 128;
/** Minimum number of bytes read of each file, and the maximum capacity. */
const LEAST_BYTES = 3 * BLOCK_BYTES;
const SLOT_BYTES = 8 * BLOCK_BYTES;
/** Loads of a number in some twenty microseconds: about what reading a file oneself takes. */
const MOST_LOOKS = 2000;
/** How long the reader sleeps while there is no room, at most, ms. */
const NAP_MS = 20;

/** How far the reader stays before the taker: one run is left to who would wait for it otherwise. */
const LEAD_RUNS = 2;

/** Places in the shared numbers. */
const DONE_FILES = 0;
const WANTED_BYTES = 1;
const STOPPED = 2;
const FIRST_SLOT = 3;

const FREE = 0;
const TAKEN = 1;

/** The beginning of a file: valid until the next is requested. */
export interface Beginning {
  /** The file's. */
  readonly sizeBytes: number;
  /** Memory that begins with it, and the same as words. */
  readonly bytes: Buffer;
  readonly words: Int32Array;
  /** How much of it was read. */
  readonly filled: number;
}

/** A reader's result for a file: bytes read, and the file's size; `null` if its beginning is not sufficient. */
export type ReadBeginning = (
  file: number,
  into: Buffer,
  at: number,
  length: number,
) => readonly [number, number] | null;

export interface SharedRing {
  /** Counters, and of each slot the number of the file in it, from 1, and how many bytes it has. */
  readonly numbers: Int32Array;
  /** Of each run of files, whether it is taken. */
  readonly runs: Int32Array;
  readonly sizes: Float64Array;
  readonly bytes: Uint8Array;
}

/** Memory for a ring of this many files. */
export function sharedRing(files: number): SharedRing {
  const runs = Math.ceil(files / RUN);
  return {
    runs: new Int32Array(new SharedArrayBuffer(runs * Int32Array.BYTES_PER_ELEMENT)),
    numbers: new Int32Array(new SharedArrayBuffer((FIRST_SLOT + 2 * SLOTS) * Int32Array.BYTES_PER_ELEMENT)),
    sizes: new Float64Array(new SharedArrayBuffer(SLOTS * Float64Array.BYTES_PER_ELEMENT)),
    bytes: new Uint8Array(new SharedArrayBuffer(SLOTS * SLOT_BYTES)),
  };
}

/** Reads files into the ring until there are none left, or it is stopped. Blocks the thread. */
export function fillRing({ numbers, runs, sizes, bytes }: SharedRing, files: number, read: ReadBeginning): void {
  const memory = Buffer.from(bytes.buffer);
  let run = 0;
  while (Atomics.load(numbers, STOPPED) === 0) {
    const done = Atomics.load(numbers, DONE_FILES);
    run = Math.max(run, Math.floor(done / RUN) + LEAD_RUNS);
    if (run >= runs.length) return;
    if ((run + 1) * RUN - done > SLOTS) {
      Atomics.wait(numbers, DONE_FILES, done, NAP_MS);
      continue;
    }
    if (Atomics.compareExchange(runs, run, FREE, TAKEN) !== FREE) {
      run++;
      continue;
    }
    for (let file = run * RUN; file < Math.min(files, (run + 1) * RUN); file++) {
      const slot = file % SLOTS;
      const length = Math.min(SLOT_BYTES, Math.max(LEAST_BYTES, Atomics.load(numbers, WANTED_BYTES)));
      const [got, size] = read(file, memory, slot * SLOT_BYTES, length) ?? [0, 0];
      sizes[slot] = size;
      numbers[gotPlace(slot)] = got;
      Atomics.store(numbers, filePlace(slot), file + 1);
    }
    run++;
  }
}

/** The end of a ring that takes beginnings out, file by file. */
export class RingTaker {
  private readonly slots: readonly { readonly bytes: Buffer; readonly words: Int32Array }[];
  private isOwnRun = false;

  constructor(private readonly ring: SharedRing) {
    const { buffer } = ring.bytes;
    this.slots = Array.from({ length: SLOTS }, (_, slot) => ({
      bytes: Buffer.from(buffer, slot * SLOT_BYTES, SLOT_BYTES),
      words: new Int32Array(buffer, slot * SLOT_BYTES, SLOT_BYTES / Int32Array.BYTES_PER_ELEMENT),
    }));
  }

  /**
   * The beginning of a file; request them in order.
   *
   * @returns `undefined` where the caller is to read the file itself
   */
  take(file: number): Beginning | undefined {
    const { numbers, runs, sizes } = this.ring;
    Atomics.store(numbers, DONE_FILES, file);
    if (file % RUN === 0) {
      Atomics.notify(numbers, DONE_FILES);
      this.isOwnRun = Atomics.compareExchange(runs, file / RUN, FREE, TAKEN) === FREE;
    }
    if (this.isOwnRun) return undefined;
    const slot = file % SLOTS;
    let looks = 0;
    while (Atomics.load(numbers, filePlace(slot)) !== file + 1) if (++looks > MOST_LOOKS) return undefined;
    const got = numbers[gotPlace(slot)];
    const sizeBytes = sizes[slot];
    const memory = this.slots[slot];
    if (memory === undefined || got === undefined || sizeBytes === undefined || got === 0) return undefined;
    return { sizeBytes, bytes: memory.bytes, words: memory.words, filled: got };
  }

  /** How much of the next files will be wanted. */
  want(bytes: number): void {
    Atomics.store(this.ring.numbers, WANTED_BYTES, bytes);
  }

  /** Sends the reader home. */
  stop(): void {
    Atomics.store(this.ring.numbers, STOPPED, 1);
    Atomics.notify(this.ring.numbers, DONE_FILES);
  }
}

function filePlace(slot: number): number {
  return FIRST_SLOT + 2 * slot;
}

function gotPlace(slot: number): number {
  return FIRST_SLOT + 2 * slot + 1;
}
