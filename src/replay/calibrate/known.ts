/** What is known about one train before its habits are inferred. */
import type { JudgedFrame } from '../../model/index.js';
import type { TrainCourse } from '../course.js';
import type { Idle } from './idles.js';

export interface Known {
  readonly course: TrainCourse;
  readonly lights: readonly JudgedFrame[];
  readonly idles: readonly Idle[];
}
