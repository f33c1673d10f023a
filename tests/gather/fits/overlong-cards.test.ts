import { describe, expect, it } from 'vitest';
import { readHeader } from '../../../src/gather/fits/index.js';
import { FrameFolder } from './header-files.js';

const folder = new FrameFolder();

/** Cards padded to 80 characters and written as UTF-8, by a writer that knows no bytes; the standard counts bytes. */
function written(cards: readonly string[], { inBytes = false } = {}): Buffer {
  const padded = cards.map((card) => card.padEnd(80)).join('');
  const text = padded.padEnd(Math.ceil(padded.length / 2880) * 2880);
  const header = Buffer.from(text, 'utf8');
  const beyond = inBytes ? (2880 - (header.length % 2880)) % 2880 : 0;
  return Buffer.concat([header, Buffer.alloc(beyond, ' '), Buffer.alloc(2880)]);
}

const BEGIN = ['SIMPLE  =                    T', 'BITPIX  =                   16', 'NAXIS   =                    2'];
const SHAPE = ['NAXIS1  =                    6', 'NAXIS2  =                    4'];
const LIGHT = ["DATE-OBS= '2026-10-14T19:42:10.250'", 'EXPTIME =                300.0', "FILTER  = 'Ha      '"];

function header(name: string, bytes: Buffer) {
  const result = readHeader(folder.write(name, bytes));
  if (!result.ok) throw new Error(`${name} was not read: ${result.problem.what}`);
  return result.header;
}

describe('cards padded by characters', () => {
  it.each([false, true])('lose nothing of what follows them; header filled up by bytes: %s', (inBytes) => {
    const cards = [
      ...BEGIN,
      ...SHAPE,
      "OBSERVER= 'Núñez, colina del cierzo' / quien observó",
      "SITENAME= 'Колина 冷風'",
      'COMMENT  höher als die Straße',
      ...LIGHT,
      'END',
    ];
    const { cards: read, image, notes } = header(`padded-${inBytes}.fits`, written(cards, { inBytes }));
    expect(image?.axes).toEqual([6, 4]);
    expect(read.get('OBSERVER')).toBe('Núñez, colina del cierzo');
    expect(read.get('SITENAME')).toBe('Колина 冷風');
    expect([read.get('DATE-OBS'), read.get('EXPTIME'), read.get('FILTER')]).toEqual([
      '2026-10-14T19:42:10.250',
      300,
      'Ha',
    ]);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatchObject({ code: 'overlong-card', card: 'OBSERVER' });
    expect(notes[0]?.what).toMatch(/^OBSERVER and 2 more take more than 80 bytes/);
  });

  it('are distinguished from cards of 80 bytes, whose characters beyond ASCII leave less room', () => {
    const name = "OBSERVER= 'Núñez, colina'";
    const fitting = name + ' '.repeat(80 - Buffer.byteLength(name));
    const bytes = written([...BEGIN, ...SHAPE, ...LIGHT, 'END']);
    const own = Buffer.concat([bytes.subarray(0, 400), Buffer.from(fitting, 'utf8'), bytes.subarray(400)]);
    const { cards, notes } = header('fitting.fits', own);
    expect(cards.get('OBSERVER')).toBe('Núñez, colina');
    expect(cards.get('FILTER')).toBe('Ha');
    expect(notes).toEqual([]);
  });
});
