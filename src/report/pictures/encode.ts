/** Encodes grey pixels as pictures of bounded size for the page. */
import { itemAt, type Picture } from '../../model/index.js';
import { canvasWithFonts } from '../canvas-fonts.js';

/** Grey values row by row. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
}

const QUALITIES = [85, 75, 65, 55, 45, 35] as const;
/** Pictures are reduced by this factor if the lowest quality is still too large. */
const SHRINK = 0.75;

/** A picture of at most this many bytes. */
export async function encodeGrey(picture: Grey, bytesMax: number): Promise<Picture> {
  const { createCanvas } = await canvasWithFonts();
  const source = createCanvas(picture.width, picture.height);
  const context = source.getContext('2d');
  const image = context.createImageData(picture.width, picture.height);
  picture.grey.forEach((value, i) => image.data.set([value, value, value, 255], 4 * i));
  context.putImageData(image, 0, 0);
  for (let scale = 1; ; scale *= SHRINK) {
    const width = Math.max(1, Math.round(picture.width * scale));
    const height = Math.max(1, Math.round(picture.height * scale));
    const canvas = createCanvas(width, height);
    canvas.getContext('2d').drawImage(source, 0, 0, width, height);
    for (const quality of QUALITIES) {
      const jpeg = await canvas.encode('jpeg', quality);
      const uri = `data:image/jpeg;base64,${jpeg.toString('base64')}`;
      if (uri.length <= bytesMax || width * height === 1) return { width, height, uri };
    }
  }
}

/** Pixels between the cutouts of a strip. */
const GAP = 2;

/** Cutouts side by side, enlarged by whole pixels so that single ones are visible. */
export function besideEachOther(stamps: readonly Grey[], heightPx: number): Grey {
  const side = stamps[0]?.height ?? 1;
  const times = Math.max(1, Math.floor(heightPx / side));
  const step = side * times + GAP;
  const width = Math.max(1, stamps.length * step - GAP);
  const height = side * times;
  // The gaps have a grey that no sky has.
  const grey = new Uint8Array(width * height).fill(96);
  for (const [index, stamp] of stamps.entries())
    for (let y = 0; y < height; y++)
      for (let x = 0; x < side * times; x++)
        grey[y * width + index * step + x] = itemAt(stamp.grey, Math.floor(y / times) * side + Math.floor(x / times));
  return { width, height, grey };
}
