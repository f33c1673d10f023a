/** The registry of loss causes; its order is their precedence. One line per cause. */
import type { LossCause } from './cause.js';
import { cutShort } from './cut-short.js';
import { guidingOff } from './guiding-off.js';
import { low } from './low.js';
import { mountMotion } from './mount-motion.js';
import { roughGuiding } from './rough-guiding.js';
import { twilight } from './twilight.js';

export const LOSS_CAUSES: readonly LossCause[] = [mountMotion, guidingOff, cutShort, roughGuiding, low, twilight];
export type { LossCause, Surroundings } from './cause.js';
