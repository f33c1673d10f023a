import { counted, increment, listed, whole, type Night } from '../../../model/index.js';
import { causeLabel } from '../../figures/cause-label.js';
import { whichFrames } from '../../figures/which-frames.js';

/** Which frames to stack, as stated on the first screen. */
export interface FrontFrames {
  /** `223 frames to stack, 12 to look at (mostly target low), 3 to reject, 2 never saved and 1 missing on disk`. */
  readonly text: string;
  readonly stack: number;
  /** Whether any is not to be stacked as it is. */
  readonly harmed: boolean;
  /** Location of the lists, relative to the report. */
  readonly folder: string;
}

type FramedNight = Pick<Night, 'accounts'> & {
  readonly pictures?: { readonly strips: readonly { readonly frame: string }[] } | null;
};

type Lights = Night['accounts']['lights'];

/** Why most of them are not kept, by their first causes; empty if no cause accounts for more than half. */
export function mainReason(looked: Lights): string {
  const counts = new Map<string, number>();
  for (const frame of looked)
    if (frame.causes[0] !== undefined) increment(counts, causeLabel(frame.causes[0].kind, frame));
  const [most] = [...counts].sort(([, a], [, b]) => b - a);
  if (most === undefined || most[1] * 2 <= looked.length) return '';
  return most[1] === looked.length ? most[0] : `mostly ${most[0]}`;
}

/** Whether the stars of the frames to review are in the report. */
function withPictures(looked: Lights, pictures: FramedNight['pictures']): string {
  const shown = new Set(pictures?.strips.map(({ frame }) => frame));
  const some = looked.filter(({ id }) => shown.has(id));
  if (some.length === 0) return '';
  return some.length === looked.length ? 'with pictures of their stars' : `${whole(some.length)} with star pictures`;
}

/** `null` when no light was taken. */
export function frontFrames({ accounts: { lights }, pictures }: FramedNight): FrontFrames | null {
  if (lights.length === 0) return null;
  const { stack, look, reject, neverWritten, missing } = whichFrames(lights);
  const looked = lights.filter(({ file, verdict }) => file !== undefined && verdict === 'doubtful');
  const aside = [mainReason(looked), withPictures(looked, pictures)].filter((text) => text !== '').join('; ');
  const parts: readonly (readonly [number, string])[] = [
    [look, `to look at${aside === '' ? '' : ` (${aside})`}`],
    [reject, 'to reject'],
    [neverWritten, 'never saved'],
    [missing, 'missing on disk'],
  ];
  return {
    text: listed([
      `${counted(stack, 'frame')} to stack`,
      ...parts.flatMap(([count, what]) => (count === 0 ? [] : [`${whole(count)} ${what}`])),
    ]),
    stack,
    harmed: parts.some(([count]) => count > 0),
    folder: 'frames',
  };
}
