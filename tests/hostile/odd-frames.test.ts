/** Frames that no camera wrote: absurd shapes, headers without end, pixels that are not there. */
import { statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isMeasured, measureStars } from '../../src/stars/index.js';
import { writeFits, type CardInput } from '../support/fits-writer.js';
import { writeFiles } from '../support/generator/samples.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger } from './support/child.js';
import { runs } from '../support/runs.js';

cleanUp();

const card = (text: string): string => text.padEnd(80);
const padded = (cards: readonly string[]): string => {
  const text = [...cards.map(card), card('END')].join('');
  return text.padEnd(Math.ceil(text.length / 2880) * 2880);
};
const shaped = (...shape: readonly string[]): Buffer =>
  Buffer.from(
    padded([
      'SIMPLE  =                    T',
      ...shape,
      "IMAGETYP= 'LIGHT'",
      "DATE-OBS= '2026-10-14T21:30:00'",
      'EXPTIME =                 60.0',
      "OBJECT  = 'NGC 281'",
    ]) + ' '.repeat(5760),
    'latin1',
  );
const axis = (key: string, value: string): string => `${key.padEnd(8)}= ${value.padStart(20)}`;
const good = (...cards: CardInput[]): Buffer =>
  writeFits({
    width: 64,
    height: 48,
    bitpix: 16,
    cards: [
      ['IMAGETYP', 'LIGHT'],
      ['DATE-OBS', '2026-10-14T21:40:00'],
      ['EXPTIME', 60],
      ['OBJECT', 'NGC 281'],
      ...cards,
    ],
  });

describe('frames that no camera wrote', () => {
  it('cost themselves only, in bounded time and memory, their pixels being asked for', async () => {
    const session = tempFolder();
    writeFiles(
      session,
      new Map<string, Buffer>([
        ['good.fits', good()],
        ['axes.fits', shaped(axis('BITPIX', '16'), axis('NAXIS', '999'), axis('NAXIS1', '10'))],
        [
          'wide.fits',
          shaped(axis('BITPIX', '16'), axis('NAXIS', '2'), axis('NAXIS1', '2147483647'), axis('NAXIS2', '2147483647')),
        ],
        [
          'huge.fits',
          shaped(axis('BITPIX', '-64'), axis('NAXIS', '2'), axis('NAXIS1', '9'.repeat(18)), axis('NAXIS2', '1')),
        ],
        ['negative.fits', shaped(axis('BITPIX', '16'), axis('NAXIS', '2'), axis('NAXIS1', '-5'), axis('NAXIS2', '-5'))],
        ['depth.fits', shaped(axis('BITPIX', '13'), axis('NAXIS', '2'), axis('NAXIS1', '64'), axis('NAXIS2', '48'))],
        [
          'cube.fits',
          shaped(
            axis('BITPIX', '8'),
            axis('NAXIS', '3'),
            axis('NAXIS1', '64'),
            axis('NAXIS2', '48'),
            axis('NAXIS3', '99999999'),
          ),
        ],
        ['long.fits', good(['OBJECT', 'NGC 281 '.repeat(12_500)])],
        [
          'endless.fits',
          Buffer.from(`${card('SIMPLE  =                    T')}${card("COMMENT '").repeat(60_000)}`, 'latin1'),
        ],
        ['one-card.fits', Buffer.from(`SIMPLE  = T${'x'.repeat(100_000)}`, 'latin1')],
        ['tiles.fits.fz', shaped(axis('BITPIX', '8'), axis('NAXIS', '0'))],
      ]),
    );
    const out = join(tempFolder(), 'out');
    const run = await nightledger(['report', '.', '--out', out, '--no-pdf', '--stars', 'full'], {
      cwd: session,
      seconds: 110,
    });
    expect(run, run.stderr.slice(0, 3000)).toMatchObject({ status: 0, withinBounds: true });
    expect(run.stderr.length).toBeLessThan(50_000);
  });

  it('have pixels that are measured, or a reason why they are not', async () => {
    const folder = tempFolder();
    const sound = good();
    const hostileCard = fc.constantFrom(
      axis('NAXIS1', '2147483647'),
      axis('NAXIS1', '0'),
      axis('NAXIS1', '1e9'),
      axis('NAXIS2', '-1'),
      axis('NAXIS', '7'),
      axis('BITPIX', '-64'),
      axis('BITPIX', '0'),
      axis('BZERO', '1e308'),
      axis('BSCALE', '0'),
      axis('BSCALE', "'NaN'"),
      axis('PCOUNT', '999999999'),
      axis('GCOUNT', '-1'),
      'ZIMAGE  =                    T',
      "ZCMPTYPE= 'RICE_1'",
      axis('ZTILE1', '0'),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(8), hostileCard), { maxLength: 4 }),
        fc.nat(sound.length),
        async (cards, length) => {
          const bytes = Buffer.from(sound);
          for (const [at, text] of cards) bytes.write(card(text), at * 80, 'latin1');
          const path = join(folder, 'a.fits');
          writeFileSync(path, bytes.subarray(0, Math.max(length, 2880)));
          const { size, mtimeMs } = statSync(path);
          const frame = { id: 'a', path, sizeBytes: size, changedMs: mtimeMs };
          const measured = (await measureStars([frame], { by: 'full', threads: 0 })).measured.get('a');
          if (measured === undefined) throw new Error('neither measured nor a reason');
          if (!isMeasured(measured)) expect(measured.reason).not.toBe('');
          else expect(measured.list.width * measured.list.height).toBeLessThanOrEqual(1e6);
        },
      ),
      runs(60),
    );
  });
});
