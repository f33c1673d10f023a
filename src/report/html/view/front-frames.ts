import { listed, whole, type Night } from '../../../model/index.js';
import { whichFrames } from '../../figures/which-frames.js';

/** Which frames to stack, as the first screen says it. */
export interface FrontFrames {
  /** `223 to stack, 2 to look at (with their star pictures), 3 to reject and 2 never written`. */
  readonly text: string;
  /** Where the lists lie, relative to the report. */
  readonly folder: string;
}

type FramedNight = Pick<Night, 'accounts'> & {
  readonly pictures?: { readonly strips: readonly { readonly frame: string }[] } | null;
};

/** Whether the stars of the frames to look at stand in the report. */
function withPictures(lights: Night['accounts']['lights'], look: number, pictures: FramedNight['pictures']): string {
  const shown = new Set(pictures?.strips.map(({ frame }) => frame));
  const some = lights.filter(({ id, file, verdict }) => file !== undefined && verdict === 'doubtful' && shown.has(id));
  if (some.length === 0) return '';
  return some.length === look ? ' (with their star pictures)' : ` (${whole(some.length)} with star pictures)`;
}

/** `null` when no light was taken. */
export function frontFrames({ accounts: { lights }, pictures }: FramedNight): FrontFrames | null {
  if (lights.length === 0) return null;
  const { stack, look, reject, neverWritten } = whichFrames(lights);
  const parts: readonly (readonly [number, string])[] = [
    [look, `to look at${withPictures(lights, look, pictures)}`],
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
