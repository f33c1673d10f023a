/** The cards of an image in an extension, over those of the primary unit. */
import { Cards } from './cards.js';
import type { ImageShape } from './image-shape.js';
import { KeywordSet } from './keyword-set.js';

/** Cards that describe an extension or a table of compressed tiles, not the image (sections 7 and 10.1). */
const EXTENSION_STRUCTURE = new RegExp(
  '^(?:XTENSION|PCOUNT|GCOUNT|TFIELDS|T(?:TYPE|FORM)\\d+|NAXIS\\d+|' +
    'Z(?:IMAGE|BITPIX|NAXIS\\d*|CMPTYPE|TILE\\d+|NAME\\d+|VAL\\d+|MASKCMP|QUANTIZ|DITHER0|BLANK|' +
    'SIMPLE|EXTEND|BLOCKED|TENSION|PCOUNT|GCOUNT|HECKSUM|DATASUM))$',
);

/** The primary's cards with the image's over them, described as the image that it is. */
export function mergedCards(primary: Cards, extension: Cards, image: ImageShape, wanted: KeywordSet | null): Cards {
  const merged = primary.toMap();
  for (const [keyword, value] of extension.toMap()) if (!EXTENSION_STRUCTURE.test(keyword)) merged.set(keyword, value);
  merged.set('BITPIX', image.bitpix).set('NAXIS', image.axes.length);
  image.axes.forEach((length, axis) => merged.set(`NAXIS${axis + 1}`, length));
  return Cards.from(merged, wanted ?? new KeywordSet(merged.keys()));
}
