import type { FrameWorth, JudgedFrame } from '../model/index.js';

/** A light, with its worth once it is weighed and where it can be judged. */
export type MaybeWeighed = JudgedFrame & { readonly worth?: FrameWorth };
