/** Files and headers for these tests, in a folder of their own that is removed at the end. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll } from 'vitest';
import type { CardValue } from '../../../src/gather/fits/card-values.js';
import { type Cards, type HeaderBytes, keywordsIn, parseCards } from '../../../src/gather/fits/cards.js';
import { type ReadFramesOptions, readHeaderFrames } from '../../../src/gather/fits/index.js';
import type { HeaderNote } from '../../../src/gather/fits/notes.js';
import type { HeaderFrame, Warning } from '../../../src/model/index.js';
import { type CardInput, writeFits } from '../../support/fits-writer.js';

/** The present of every test that does not set its own: after all its nights. */
export const NOW_MS = Date.UTC(2027, 0, 1);

/** Cards of an ordinary light: tests replace or leave out what they are about. */
export const LIGHT: readonly CardInput[] = [
  ['DATE-OBS', '2026-10-14T19:42:10.250'],
  ['EXPTIME', 300],
  ['IMAGETYP', 'Light Frame'],
  ['OBJECT', 'NGC 281'],
  ['FILTER', 'Ha'],
];

/** The light's cards without those of some keywords. */
export function lightWithout(...keywords: string[]): CardInput[] {
  return LIGHT.filter((card) => !keywords.includes(card[0]));
}

/** A tiny light with further cards. */
export function light(...cards: CardInput[]): Buffer {
  return frame([...LIGHT, ...cards]);
}

/** A tiny frame with exactly these cards besides the mandatory ones. */
export function frame(cards: readonly CardInput[]): Buffer {
  return writeFits({ cards, width: 4, height: 3, bitpix: 16 });
}

/** Header memory of these card images and END, Latin-1. */
export function headerBytes(...images: string[]): HeaderBytes & { readonly cardCount: number } {
  const text = [...images, 'END'].map((image) => image.padEnd(80)).join('');
  const memory = new ArrayBuffer(text.length);
  const bytes = Buffer.from(memory);
  bytes.write(text, 'latin1');
  return { bytes, words: new Int32Array(memory), cardCount: images.length + 1 };
}

/** Values of all cards among these images, and the notes on them. */
export function readImages(...images: string[]): { cards: Cards; values: Map<string, CardValue>; notes: HeaderNote[] } {
  const header = headerBytes(...images);
  const notes: HeaderNote[] = [];
  const { cards } = parseCards(header, header.cardCount, keywordsIn(header, header.cardCount), notes);
  return { cards, values: cards.toMap(), notes };
}

/** The value of the one card among these images. */
export function onlyValue(...images: string[]): CardValue | undefined {
  return [...readImages(...images).values.values()][0];
}

/** A temporary folder for one test file. */
export class FrameFolder {
  readonly path = mkdtempSync(join(tmpdir(), 'nightledger-fits-'));

  constructor() {
    afterAll(() => rmSync(this.path, { recursive: true, force: true }));
  }

  /** Writes a file and returns its path. */
  write(name: string, bytes: Uint8Array): string {
    const path = join(this.path, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
    return path;
  }

  /** Writes files and reads them as frames, in this order. */
  async read(files: Readonly<Record<string, Uint8Array>>, options: Partial<ReadFramesOptions> = {}) {
    for (const [name, bytes] of Object.entries(files)) this.write(name, bytes);
    return readHeaderFrames(this.path, Object.keys(files), { nowMs: NOW_MS, ...options });
  }

  /** Writes one file and reads it: its frame, if any, and the warnings. */
  async readOne(
    bytes: Uint8Array,
    options: Partial<ReadFramesOptions> = {},
  ): Promise<{ frame: HeaderFrame | undefined; warnings: Warning[] }> {
    const { frames, warnings } = await this.read({ 'a.fits': bytes }, options);
    return { frame: frames[0], warnings };
  }
}

/** Codes of warnings, in order. */
export function codes(warnings: readonly { readonly code: string }[]): string[] {
  return warnings.map(({ code }) => code);
}
