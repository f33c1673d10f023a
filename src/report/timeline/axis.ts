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
/** Spans up to this length are ticked each half hour. */
const SHORT = 3 * HOUR;
const LABEL_PX = 12;
/** Labels nearer to an end than this share of the axis stand inside it. */
const NEAR_END = 0.015;

/** A tick a whole hour, named by it; a tick each half hour, named in full, where the span is short. */
export function axisTicks(clock: Clock, scale: TimeScale): AxisTick[] {
  const { startMs, endMs } = scale.span;
  const short = endMs - startMs <= SHORT;
  const stepMs = short ? HOUR / 2 : HOUR;
  return clock.ticks(startMs, endMs, stepMs / MINUTE).map((atMs) => {
    const label = short ? clock.time(atMs) : clock.time(atMs).slice(0, 2);
    // Where ticks stand too close for a label each, every second one speaks.
    const speaksLonger = short ? label.endsWith('00') : Number(label) % 2 === 0;
    const share = Math.min(1, ((speaksLonger ? 2 : 1) * stepMs) / (endMs - startMs));
    const place = (atMs - startMs) / (endMs - startMs);
    const anchor = place < NEAR_END ? 'start' : place > 1 - NEAR_END ? 'end' : 'middle';
    return { x: scale.x(atMs), label, anchor, fit: fitClass(textWidthPx(label, LABEL_PX) + 3, share) ?? '' };
  });
}
