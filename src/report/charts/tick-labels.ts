import { decimal } from '../../model/index.js';
import type { ScaleLabels } from './axes.js';

interface Tick {
  readonly value: number;
}

/** A fifth digit is below what is visible. */
const MOST_DIGITS = 4;

/** Number of digits that make neighbouring ticks distinct; none for integer ticks. */
function digitsThatTell(ticks: readonly Tick[]): number {
  const [first, second] = ticks;
  const step = first && second ? Math.abs(second.value - first.value) : 1;
  return step > 0 && step < 1 ? Math.min(MOST_DIGITS, Math.ceil(-Math.log10(step) - 1e-9)) : 0;
}

/** A scale as passed to the chart library: with functions that format its ticks. */
export function withTickLabels<S extends ScaleLabels & { readonly ticks?: object }>(scale: S): object {
  const { labelled, figures, ...rest } = scale;
  if (labelled !== undefined) {
    const labels = new Map(labelled.map(({ value, label }) => [value, label]));
    return {
      ...rest,
      afterBuildTicks: (axis: { ticks: Tick[] }) => {
        axis.ticks = labelled.map(({ value }) => ({ value }));
      },
      ticks: { ...rest.ticks, callback: (value: string | number) => labels.get(Number(value)) ?? '' },
    };
  }
  if (figures === undefined) return rest;
  const { digits, absolute } = figures;
  return {
    ...rest,
    ticks: {
      ...rest.ticks,
      callback: (value: string | number, _index: number, ticks: readonly Tick[]) => {
        const number = absolute ? Math.abs(Number(value)) : Number(value);
        const usual = digits ?? (Number.isInteger(Math.round(number * 1000) / 1000) ? 0 : 1);
        return decimal(number, Math.max(usual, digitsThatTell(ticks)));
      },
    },
  };
}
