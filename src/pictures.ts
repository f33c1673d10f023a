/** Pictures of a night: cut by the stage that reads pixels, encoded by the one that shows them. */
import type { Night, NightPictures } from './model/index.js';
import type { NightPixels } from './stars/index.js';

/** Sizes in the page. */
const STRIP_BYTES = 8_000;
const FIELD_BYTES = 80_000;
const STRIP_HEIGHT_PX = 48;

/** @returns `null` if none are requested, or if the night has no measured stars to show */
export async function picturesOf(
  { gathered, stars, accounts }: Pick<Night, 'gathered' | 'stars' | 'accounts'>,
  pixels: NightPixels | null,
): Promise<NightPictures | null> {
  if (pixels?.pictures !== true || stars === null || pixels.signal?.aborted === true) return null;
  if (Object.keys(stars.frames).length === 0) return null;
  const { cutPictures } = await import('./stars/pictures/index.js');
  const { besideEachOther, encodeGrey } = await import('./report/pictures/encode.js');
  const cut = await cutPictures(accounts.lights, stars, gathered.cameras, pixels);
  return {
    strips: await Promise.all(
      cut.strips.map(async ({ frame, beside, stamps, besideStamps }) => ({
        frame: frame.id,
        beside: beside.id,
        stars: stamps.length,
        picture: await encodeGrey(besideEachOther(stamps, STRIP_HEIGHT_PX), STRIP_BYTES),
        besidePicture: await encodeGrey(besideEachOther(besideStamps, STRIP_HEIGHT_PX), STRIP_BYTES),
      })),
    ),
    fields: await Promise.all(
      cut.fields.map(async ({ frame, grey }) => ({
        frame: frame.id,
        train: frame.train,
        target: frame.target ?? '',
        filter: frame.filter ?? '',
        picture: await encodeGrey(grey, FIELD_BYTES),
      })),
    ),
  };
}
