/** Measures one frame or returns a reason; never throws for the contents of a file. */
import type { StarReading } from '../model/index.js';
import { FrameMeasurer } from './measure/frame.js';
import { reasonOf } from './not-measured.js';
import type { FrameMeasurement, FrameToMeasure } from './types.js';

export type MeasureFrame = (frame: FrameToMeasure, by: StarReading) => Promise<FrameMeasurement>;

/** A function that measures frames with reusable working memory; one call at a time. */
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
