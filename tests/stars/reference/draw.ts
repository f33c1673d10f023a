/** Writes the frames that other tools measure into a folder: see README.md. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { drawFrame } from '../../support/drawing/draw-stars.js';
import { writeFits } from '../../support/fits-writer.js';
import { FRAMES } from './frames.js';

const [folder] = process.argv.slice(2);
if (folder === undefined) throw new Error('usage: draw FOLDER');
mkdirSync(folder, { recursive: true });
for (const [name, frame] of Object.entries(FRAMES)) {
  const { width, height } = frame;
  writeFileSync(
    join(folder, `${name}.fits`),
    writeFits({ cards: [], width, height, bitpix: 16, pixels: drawFrame(frame) }),
  );
}
