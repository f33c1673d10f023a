/** One frame in, its measurement or a reason out; never throws for what a file holds. */
import type { StarReading } from '../model/index.js';
import { FrameMeasurer } from './measure/frame.js';
import { reasonOf } from './not-measured.js';
import type { FrameMeasurement, FrameToMeasure } from './types.js';

export type MeasureFrame = (frame: FrameToMeasure, by: StarReading) => Promise<FrameMeasurement>;

/** A function that measures frame after frame with the same working memory; one call at a time. */
export function frameMeasurer(): MeasureFrame {
  const measurer = new FrameMeasurer();
  return async (frame, by) => {
    try {
      return await measurer.measure(frame, by);
    } catch (error) {
      return { reason: reasonOf(error) };
    }
  };
}
