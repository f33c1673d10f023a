/** The plan that a train's lights followed: runs of equal lights. */
import type { JudgedFrame } from '../../model/index.js';
import type { Block } from '../course.js';
import type { Idle } from './idles.js';
import { askedMs } from './lengths.js';

/** Blocks in their order. */
export function blocksOf(lights: readonly JudgedFrame[], idles: readonly Idle[]): Block[] {
  const blocks: { target?: string; filter?: string; exposureMs: number; frames: number; filterMs: number }[] = [];
  for (const [i, light] of lights.entries()) {
    const last = blocks.at(-1);
    const exposureMs = askedMs(light);
    if (last && last.target === light.target && last.filter === light.filter && last.exposureMs === exposureMs)
      last.frames++;
    else
      blocks.push({
        target: light.target,
        filter: light.filter,
        exposureMs,
        frames: 1,
        filterMs: idles[i - 1]?.filterMs ?? 0,
      });
  }
  return blocks;
}

/** Position of a light in the plan. @param index of the light */
export function placeInPlan(index: number, blocks: readonly Block[]): { block: number; framesDone: number } {
  let first = 0;
  for (const [block, { frames }] of blocks.entries()) {
    if (index < first + frames) return { block, framesDone: index - first };
    first += frames;
  }
  return { block: Math.max(0, blocks.length - 1), framesDone: 0 };
}
