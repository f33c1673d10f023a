/** Cuts pictures out of a night's pixels: the same stars in frames kept and not kept, and the sharpest frames. */
import { type CameraFacts, type JudgedFrame, type NightStars, ownValue } from '../../model/index.js';
import { cutOuts, type GreyPicture, stretchedAlike, wholePicture } from '../cut-outs.js';
import { measureStars } from '../measure-stars.js';
import { frameToMeasure, type NightPixels } from '../night.js';
import { isMeasured, type FrameToMeasure, type StarList } from '../types.js';
import { chooseFields, chooseStrips, type StripChoice } from './choose.js';
import { sameStars } from './same-stars.js';

/** Number of stars in a strip. */
const STARS = 8;
const STARS_MIN = 3;
/** A stamp's width as a multiple of the stars' width, within limits, px. */
const WIDTHS = 7;
const SIDE = { min: 21, max: 61 } as const;
const WIDEST_PX = 900;

/** A strip before it is encoded: stamps in the order of the stars. */
export interface CutStrip extends StripChoice {
  readonly stamps: readonly GreyPicture[];
  readonly besideStamps: readonly GreyPicture[];
}

export interface CutPictures {
  readonly strips: readonly CutStrip[];
  readonly fields: readonly { readonly frame: JudgedFrame; readonly grey: GreyPicture }[];
}

/**
 * The cutouts, and the location of the frames. A frame whose pixels cannot be read has no picture; nothing makes it
 * throw.
 */
export async function cutPictures(
  lights: readonly JudgedFrame[],
  stars: NightStars,
  cameras: readonly CameraFacts[],
  pixels: NightPixels,
): Promise<CutPictures> {
  const files = (frame: JudgedFrame): FrameToMeasure | undefined => frameToMeasure(frame, cameras, pixels.root);
  const chosen = chooseStrips(lights, stars.frames);
  const lists = await listsOf(
    chosen.flatMap(({ frame, beside }) => [files(frame) ?? [], files(beside) ?? []]).flat(),
    pixels,
  );
  const strips: CutStrip[] = [];
  for (const choice of chosen) {
    const [file, besideFile] = [files(choice.frame), files(choice.beside)];
    const strip = file && besideFile && (await cutStrip(choice, stars, lists, file, besideFile));
    if (strip) strips.push(strip);
  }
  const fields: CutPictures['fields'][number][] = [];
  for (const frame of chooseFields(lights, stars.frames)) {
    const file = files(frame);
    const grey = file && (await wholePicture(file, WIDEST_PX));
    if (grey && 'grey' in grey) fields.push({ frame, grey });
  }
  return { strips, fields };
}

/** The frames' star lists, from the cache. */
async function listsOf(frames: readonly FrameToMeasure[], pixels: NightPixels): Promise<Map<string, StarList>> {
  const once = [...new Map(frames.map((frame) => [frame.id, frame])).values()];
  const { measured } = await measureStars(once, { ...pixels, onProgress: undefined });
  return new Map([...measured].flatMap(([id, one]) => (isMeasured(one) ? [[id, one.list] as const] : [])));
}

async function cutStrip(
  choice: StripChoice,
  { frames }: NightStars,
  lists: ReadonlyMap<string, StarList>,
  file: FrameToMeasure,
  besideFile: FrameToMeasure,
): Promise<CutStrip | undefined> {
  const [list, besideList] = [lists.get(file.id), lists.get(besideFile.id)];
  if (list === undefined || besideList === undefined) return undefined;
  const [own, other] = [ownValue(frames, choice.frame.id), ownValue(frames, choice.beside.id)];
  const side = sideFor(Math.max(own?.fwhm ?? 0, other?.fwhm ?? 0) / (file.binning?.x ?? 1));
  const places = sameStars(
    { list: besideList, shift: other?.shift ?? null },
    { list, shift: own?.shift ?? null },
    STARS,
    side >> 1,
  );
  if (places.length < STARS_MIN) return undefined;
  const stamps = await cutOuts(
    file,
    places.map(([, there]) => there),
    side,
  );
  const besideStamps = await cutOuts(
    besideFile,
    places.map(([here]) => here),
    side,
  );
  if ('reason' in stamps || 'reason' in besideStamps) return undefined;
  const [pictures = [], besidePictures = []] = stretchedAlike([stamps, besideStamps]);
  const whole = pictures.flatMap((stamp, i) => {
    const kept = besidePictures[i];
    return stamp && kept ? [{ stamp, kept }] : [];
  });
  return {
    ...choice,
    stamps: whole.map(({ stamp }) => stamp),
    besideStamps: whole.map(({ kept }) => kept),
  };
}

/** Odd, so that a star is centred. */
function sideFor(fwhmPx: number): number {
  const side = Math.round(Math.min(SIDE.max, Math.max(SIDE.min, WIDTHS * fwhmPx)));
  return side % 2 === 1 ? side : side + 1;
}
