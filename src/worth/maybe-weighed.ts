import type { FrameWorth, JudgedFrame } from '../model/index.js';

/** A light, with its worth once it is weighed and where that can be told. */
export type MaybeWeighed = JudgedFrame & { readonly worth?: FrameWorth };
