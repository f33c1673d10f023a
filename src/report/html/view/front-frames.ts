import { listed, whole, type Night } from '../../../model/index.js';
import { whichFrames } from '../../figures/which-frames.js';

/** Which frames to stack, as the first screen says it. */
export interface FrontFrames {
  /** `223 to stack, 2 to look at, 3 to reject and 2 never written`. */
  readonly text: string;
  /** Where the lists lie, relative to the report. */
  readonly folder: string;
}

/** `null` when no light was taken. */
export function frontFrames({ accounts: { lights } }: Pick<Night, 'accounts'>): FrontFrames | null {
  if (lights.length === 0) return null;
  const { stack, look, reject, neverWritten } = whichFrames(lights);
  const parts: readonly (readonly [number, string])[] = [
    [look, 'to look at'],
    [reject, 'to reject'],
    [neverWritten, 'never written'],
  ];
  return {
    text: listed([
      `${whole(stack)} to stack`,
      ...parts.flatMap(([count, what]) => (count === 0 ? [] : [`${whole(count)} ${what}`])),
    ]),
    folder: 'frames',
  };
}
