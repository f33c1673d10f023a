// A tree of FITS files with real headers and hardly any pixels: two trains, a hundred nights.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const NIGHTS = 100;

/** Writes `count` files below a folder. */
export function makeFrames(folder, count) {
  const perTrain = count / NIGHTS / 2;
  for (let n = 0; n < NIGHTS; n++) {
    const evening = Date.UTC(2024, 0, 1, 19) + n * 3 * 86_400_000;
    for (const [train, focal] of [
      ['heron', 480],
      ['wren', 600],
    ]) {
      const home = join(folder, new Date(evening).toISOString().slice(0, 10), train);
      mkdirSync(home, { recursive: true });
      for (let k = 0; k < perTrain; k++) {
        const begin = new Date(evening + k * 250_000 + (train === 'wren' ? 20_000 : 0)).toISOString().replace('Z', '');
        writeFileSync(join(home, `${train}_${String(k).padStart(4, '0')}.fits`), fits(train, focal, begin, k));
      }
    }
  }
}

function fits(train, focal, begin, k) {
  const card = (keyword, value) =>
    `${keyword.padEnd(8)}= ${typeof value === 'string' ? `'${value.padEnd(8)}'` : String(value).padStart(20)}`.padEnd(
      80,
    );
  const cards = [
    `${'SIMPLE'.padEnd(8)}= ${'T'.padStart(20)}`.padEnd(80),
    card('BITPIX', 16),
    card('NAXIS', 2),
    card('NAXIS1', 6),
    card('NAXIS2', 4),
    card('IMAGETYP', 'LIGHT'),
    card('DATE-OBS', begin),
    card('EXPTIME', 240),
    card('OBJECT', 'NGC 281'),
    card('FILTER', ['Ha', 'OIII', 'SII'][k % 3]),
    card('TELESCOP', train),
    card('INSTRUME', 'mono 26 MP'),
    card('FOCALLEN', focal),
    card('XPIXSZ', 3.76),
    card('XBINNING', 1),
    card('YBINNING', 1),
    card('CCD-TEMP', -10),
    card('GAIN', 100),
    card('RA', 13.2458),
    card('DEC', 56.622),
    card('SITELAT', 40.42),
    card('SITELONG', -1.12),
    card('STARSIZE', 2.3),
    'END'.padEnd(80),
  ].join('');
  return Buffer.concat([
    Buffer.from(cards.padEnd(Math.ceil(cards.length / 2880) * 2880), 'latin1'),
    Buffer.alloc(2880),
  ]);
}
