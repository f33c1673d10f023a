/**
 * Memory for the young generation. V8 begins with two semispaces of one megabyte, which are collected hundreds of times
 * in a report, and lets them grow to sixteen each, most of which a report of some hundred frames never needs: held at
 * eight, it takes 20 MB less and no longer. With thousands of frames much survives from stage to stage, and a small
 * young generation promotes it too soon.
 */
import { getHeapSpaceStatistics, getHeapStatistics, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** Versions of V8 whose flag has been tried; others would not know it and say so. */
const TRIED: readonly string[] = ['11', '12', '13'];
/** Frames from which on the nursery may grow. Measured. */
const MANY_FRAMES = 3000;

/** V8's own factor. */
const GROWS = 2;
/** Size at which the nursery is held, its two halves together, bytes. Measured. */
const ROOM_ENOUGH = 16 * 2 ** 20;

function growBy(factor: number): void {
  const [major = ''] = process.versions.v8.split('.');
  if (TRIED.includes(major)) setFlagsFromString(`--semi-space-growth-factor=${factor}`);
}

/** Whether the nursery is held at its size, once that is enough. */
let isHeld = false;
let hasManyFrames = false;

/** Commands that read what soon dies: of a thousand records little lives on. */
const ROOMY: readonly string[] = ['progress'];

/** For the whole process. */
export function setNursery(command: string): void {
  hold(!ROOMY.includes(command));
}

function hold(held: boolean): void {
  if (held === isHeld) return;
  isHeld = held;
  growBy(held ? untilRoomEnough() : GROWS);
}

let hasRoom = false;

/** How many times as large it is to become at its next step, which it takes as soon as enough has lived on. */
function untilRoomEnough(): number {
  if (hasRoom) return 1;
  const young = getHeapSpaceStatistics().find((space) => space.space_name === 'new_space');
  const factor = Math.max(1, Math.floor(ROOM_ENOUGH / (young?.space_size ?? ROOM_ENOUGH)));
  hasRoom = factor === 1;
  return factor;
}

/** Lets it grow as it would. @returns what undoes that */
export function letNurseryGo(): () => void {
  if (!isHeld) return () => {};
  hold(false);
  return () => hold(true);
}

/**
 * Lets it grow if a session has many frames; if it has few, only until they are read: so much of the rest survives that
 * it would become too large before anyone checked.
 *
 * @param read how many of the frames have been read
 */
export function fitNursery(frames: number, read: number): void {
  if (frames > MANY_FRAMES) {
    hasManyFrames = true;
    hold(false);
  } else if (isHeld && !hasRoom) {
    growBy(read < frames ? untilRoomEnough() : 1);
    hasRoom ||= read === frames;
  }
}

/** A heap that has grown by this since it was last swept holds more that is dead than lives on, bytes. Measured. */
const WORTH_SWEEPING = 60_000_000;
/** Heap in use for a small night, bytes. */
const SMALL = 40_000_000;
let sweptBytes = 0;

/**
 * Collects the garbage of the stages of a night of many frames: each leaves tens of megabytes, and V8 lets them
 * accumulate until the heap is several times what is in use. Call between stages.
 */
export function sweepUp(): void {
  if (hasManyFrames && getHeapStatistics().used_heap_size >= sweptBytes + WORTH_SWEEPING) sweep();
}

/** Collects input data once nights have been made of it: half of the memory in use if logs are long. */
export function sweepAway(): void {
  if (getHeapStatistics().used_heap_size >= SMALL) sweep();
}

function sweep(): void {
  setFlagsFromString('--expose-gc');
  const collect: unknown = runInNewContext('gc');
  // Restored: modules loaded from now on have their compiled code under the initial flags.
  setFlagsFromString('--no-expose-gc');
  if (typeof collect === 'function') collect();
  sweptBytes = getHeapStatistics().used_heap_size;
}
