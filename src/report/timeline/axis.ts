import type { Clock } from '../../model/index.js';
import { fitClass, textWidthPx, type TimeScale } from './scale.js';

export interface AxisTick {
  readonly x: string;
  readonly label: string;
  readonly anchor: string;
  readonly fit: string;
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** Spans up to this length have ticks every half hour. */
const SHORT = 3 * HOUR;
const LABEL_PX = 12;
/** Labels closer to an end than this fraction of the axis are drawn inside it. */
const NEAR_END = 0.015;

/** A tick per hour, labelled with it; a tick per half hour, labelled in full, if the span is short. */
export function axisTicks(clock: Clock, scale: TimeScale): AxisTick[] {
  const { startMs, endMs } = scale.span;
  const short = endMs - startMs <= SHORT;
  const stepMs = short ? HOUR / 2 : HOUR;
  return clock.ticks(startMs, endMs, stepMs / MINUTE).map((atMs) => {
    const label = short ? clock.time(atMs) : clock.time(atMs).slice(0, 2);
    // If ticks are too close for a label each, every second one is labelled.
    const speaksLonger = short ? label.endsWith('00') : Number(label) % 2 === 0;
    const share = Math.min(1, ((speaksLonger ? 2 : 1) * stepMs) / (endMs - startMs));
    const place = (atMs - startMs) / (endMs - startMs);
    const anchor = place < NEAR_END ? 'start' : place > 1 - NEAR_END ? 'end' : 'middle';
    return { x: scale.x(atMs), label, anchor, fit: fitClass(textWidthPx(label, LABEL_PX) + 3, share) ?? '' };
  });
}
