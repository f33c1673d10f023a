import type { Clock, Night } from '../../model/index.js';
import type { Palette } from '../design/filters.js';
import type { TimeScale } from './scale.js';

/** The input of every part of a timeline. */
export interface Drawing {
  readonly night: Night;
  readonly scale: TimeScale;
  readonly clock: Clock;
  readonly palette: Palette;
}
