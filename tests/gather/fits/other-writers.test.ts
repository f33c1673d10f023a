/** Files written by cfitsio and its tools; fixtures/README.md says how they were made. */
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readHeader, readHeaderFrames } from '../../../src/gather/fits/index.js';
import { codes, NOW_MS } from './header-files.js';

const fixtures = fileURLToPath(new URL('fixtures', import.meta.url));
const NOTES =
  "It's a long note on the night: the wind came from the north-west, the guide star was lost twice, " +
  "and the mirror's temperature followed the air's with half an hour's delay.";

describe.each(['cfitsio-plain.fits', 'cfitsio-plain.fits.gz', 'cfitsio-rice.fits.fz', 'cfitsio-extension.fits.gz'])(
  '%s',
  (file) => {
    it('has the values that cfitsio was given', () => {
      const result = readHeader(`${fixtures}/${file}`);
      if (!result.ok) throw new Error(result.problem.what);
      const { cards, image, notes } = result.header;
      expect(notes).toEqual([]);
      expect(image).toEqual({ bitpix: 16, axes: [12, 8] });
      expect(Object.fromEntries(cards.toMap())).toMatchObject({
        BITPIX: 16,
        NAXIS: 2,
        NAXIS1: 12,
        NAXIS2: 8,
        BZERO: 32768,
        'DATE-OBS': '2026-10-14T19:42:10.250',
        TIMESYS: 'TAI',
        EXPTIME: 300.25,
        OBJECT: "Cierzo's star / NGC 281",
        RA: 13.1979166667,
        DEC: '+56:37:19',
        GAIN: 100,
        TINY: 1.5e-7,
        GUIDED: false,
        NOTHING: null,
        PHASE: null,
        NOTES,
        'ESO INS FOCU POS': 300.25,
      });
    });

    it('makes the same frame as the others', async () => {
      const { frames, warnings } = await readHeaderFrames(fixtures, ['cfitsio-plain.fits', file], { nowMs: NOW_MS });
      expect(codes(warnings)).toEqual([]);
      const [plain, read] = frames;
      if (plain === undefined || read === undefined) throw new Error('a frame was not read');
      const { file: _, sizeBytes, headerHash, telescope, ...facts } = read;
      expect(plain).toMatchObject(facts);
      expect(facts).toMatchObject({
        kind: 'light',
        exposure: { startMs: Date.UTC(2026, 9, 14, 19, 41, 33, 250), endMs: Date.UTC(2026, 9, 14, 19, 46, 33, 500) },
        exposureSeconds: 300.25,
        filter: 'Ha',
        pointing: { raDeg: 13.1979166667 },
        gain: 100,
        width: 12,
        height: 8,
      });
      expect(facts.pointing?.decDeg).toBeCloseTo(56 + 37 / 60 + 19 / 3600, 12);
      // Only the extension file names a telescope, in its primary unit.
      expect(telescope).toBe(file.includes('extension') ? 'heron' : undefined);
      if (telescope === undefined) expect(headerHash).toBe(plain.headerHash);
      expect(sizeBytes).toBeGreaterThan(0);
    });
  },
);
