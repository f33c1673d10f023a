import { writeFits, type CardInput } from '../../support/fits-writer.js';

/** A light of NGC 281 through Ha with hardly a pixel. @param at when it began, `2026-10-14T21:00:00` */
export function smallLight(at: string, seconds: number, cards: readonly CardInput[]): Buffer {
  return writeFits({
    width: 4,
    height: 4,
    bitpix: 16,
    cards: [
      ['IMAGETYP', 'LIGHT'],
      ['DATE-OBS', at],
      ['EXPTIME', seconds],
      ['OBJECT', 'NGC 281'],
      ['FILTER', 'Ha'],
      ...cards,
    ],
  });
}
