import { describe, expect, it } from 'vitest';
import type { CardInput } from '../../support/fits-writer.js';
import { codes, FrameFolder, frame, light, lightWithout } from './header-files.js';

const folder = new FrameFolder();

/** Reads an ordinary light with further cards. */
async function facts(...cards: CardInput[]) {
  const { frame: read, warnings } = await folder.readOne(light(...cards));
  if (read === undefined) throw new Error('the frame was not read');
  return { ...read, codes: codes(warnings), warnings };
}

describe('a light of no seconds', () => {
  it('is one whose program did not say how long it took; a bias of none is whole', async () => {
    const { frame: read, warnings } = await folder.readOne(frame([...lightWithout('EXPTIME'), ['EXPTIME', 0]]));
    expect([read?.exposureSeconds, codes(warnings)]).toEqual([undefined, ['missing-exposure-time']]);
    const bias = await folder.readOne(
      frame([...lightWithout('EXPTIME', 'IMAGETYP'), ['EXPTIME', 0], ['IMAGETYP', 'BIAS']]),
    );
    expect([bias.frame?.exposureSeconds, codes(bias.warnings)]).toEqual([0, []]);
  });
});

describe('a frame in colours', () => {
  /** A header of the given axes, written here card by card: the writer of these tests makes planes of one colour only. */
  const cube = (axes: readonly number[], ...more: string[]) =>
    Buffer.concat([
      Buffer.from(
        [
          'SIMPLE  =                    T',
          'BITPIX  =                   16',
          `NAXIS   = ${String(axes.length).padStart(20)}`,
          ...axes.map((length, i) => `NAXIS${i + 1}  = ${String(length).padStart(20)}`),
          "DATE-OBS= '2026-10-14T19:42:10.250'",
          'EXPTIME =                  300',
          "IMAGETYP= 'LIGHT   '",
          ...more,
          'END',
        ]
          .map((image) => image.padEnd(80))
          .join('')
          .padEnd(2880),
      ),
      Buffer.alloc(2880),
    ]);
  const filterOf = async (bytes: Buffer) => (await folder.readOne(bytes)).frame?.filter;

  it('is counted under its colours: three planes, or the pattern of a matrix, where no filter is named', async () => {
    expect(await filterOf(cube([4, 3, 3]))).toBe('colour');
    expect(await filterOf(cube([4, 3], "BAYERPAT= 'RGGB    '"))).toBe('colour');
    expect(await filterOf(cube([4, 3, 3], "FILTER  = 'UHC     '"))).toBe('UHC');
    expect(await filterOf(cube([4, 3, 1]))).toBeUndefined();
    expect(await filterOf(cube([4, 3]))).toBeUndefined();
  });
});

describe('kinds of frames', () => {
  const kindOf = async (...cards: CardInput[]) => {
    const { frame: read, warnings } = await folder.readOne(frame([...lightWithout('IMAGETYP'), ...cards]));
    return { kind: read?.kind, codes: codes(warnings) };
  };

  it.each([
    ['light', ['Light Frame', 'LIGHT', 'Light', 'light', 'object', 'OBJECT', 'Science', 'SCI', 'Light_Frame']],
    ['dark', ['Dark Frame', 'DARK', 'dark']],
    ['flat', ['Flat Field', 'FLAT', 'Flat Frame', 'Sky Flat', 'dome-flat', 'twilight flat']],
    ['bias', ['Bias Frame', 'BIAS', 'zero', 'Zero Frame', 'Offset']],
    ['dark-flat', ['FLATDARK', 'Dark Flat', 'DarkFlat', 'flat dark', 'FLAT-DARK']],
    ['other', ['Master Dark', 'MASTERFLAT', 'Master Light', 'master bias', 'focus', 'test', 'snapshot', 'comp']],
  ] as const)('%s has many spellings', async (kind, spellings) => {
    for (const spelling of spellings) expect(await kindOf(['IMAGETYP', spelling])).toEqual({ kind, codes: [] });
  });

  it.each([
    [
      'light',
      ['Lichtbild', 'Objektaufnahme', 'Lumière', 'image brute', 'luz', 'LUCE', 'lichtopname', 'světlo', 'свет'],
    ],
    [
      'dark',
      ['Dunkelbild', 'noir', 'oscuro', 'Scuro', 'buio', 'escuro', 'donkerbeeld', 'mørkbilde', 'ciemna', 'тёмный'],
    ],
    ['flat', ['Weißbild', 'Flachbild', 'PLU', 'campo plano', 'fotogramma piatto']],
    ['bias', ['Nullbild', 'смещение']],
    ['dark-flat', ['Dunkelbild zum Flachbild', 'flat noir']],
    ['other', ['Summenbild', 'Fokusbild', 'Probeaufnahme', 'Stapel']],
  ] as const)('%s is spelt in other languages too', async (kind, spellings) => {
    // FITS allows ASCII alone; writers that do not care write UTF-8, as these raw bytes are.
    for (const spelling of spellings) {
      const image = Buffer.from(`IMAGETYP= '${spelling}'`).toString('latin1').padEnd(80);
      expect(await kindOf(image), spelling).toEqual({ kind, codes: [] });
    }
  });

  it('come from FRAME where its text names one, and from nothing else that may stand there', async () => {
    expect(await kindOf(['FRAME', 'Light'])).toEqual({ kind: 'light', codes: [] });
    expect(await kindOf(['FRAME', 'Flat Frame'])).toEqual({ kind: 'flat', codes: [] });
    expect(await kindOf(['IMAGETYP', 'Dark'], ['FRAME', 'Light'])).toEqual({ kind: 'dark', codes: [] });
    for (const other of ['FK5', 'ICRS', 17])
      expect(await kindOf(['FRAME', other])).toEqual({ kind: 'light', codes: ['missing-kind'] });
  });

  it('come from other keywords where IMAGETYP is missing', async () => {
    expect(await kindOf(['OBSTYPE', 'dark'])).toEqual({ kind: 'dark', codes: [] });
  });

  it('are reported when not known, and counted as other', async () => {
    expect(await kindOf(['IMAGETYP', 'Wombat'])).toEqual({ kind: 'other', codes: ['unknown-kind'] });
    expect(await kindOf(['IMAGETYP', 2])).toEqual({ kind: 'other', codes: ['unknown-kind'] });
  });

  it('are assumed, and that is reported, when no card says', async () => {
    expect(await kindOf()).toEqual({ kind: 'light', codes: ['missing-kind'] });
    const { frame: bias } = await folder.readOne(
      frame([
        ['DATE-OBS', '2026-10-14T19:42:10'],
        ['EXPTIME', 0],
      ]),
    );
    expect(bias?.kind).toBe('bias');
  });
});

describe('plain facts', () => {
  it('are read with their units', async () => {
    const read = await facts(
      ['TELESCOP', 'heron 80 mm refractor'],
      ['INSTRUME', 'mono 26 MP'],
      ['GAIN', 100],
      ['OFFSET', 50],
      ['XBINNING', 1],
      ['YBINNING', 1],
      ['CCD-TEMP', -9.9],
      ['SET-TEMP', -10],
      ['FOCUSPOS', 12_034],
      ['FOCTEMP', 8.25],
      ['EGAIN', 0.246],
      ['RDNOISE', 1.5],
      ['FOCALLEN', 480],
      ['APTDIA', 80],
      ['XPIXSZ', 3.76],
      ['SITELAT', 40.42],
      ['SITELONG', -1.12],
      ['SITEELEV', 1100],
      ['PIERSIDE', 'WEST'],
      ['ROTATANG', 91.5],
      ['SWCREATE', 'invented 1.0'],
      ['HFR', 1.9],
      ['STARCNT', 812],
      ['BACKGRND', 1043],
      ['RA', 13.1979],
      ['DEC', 56.6219],
    );
    expect(read).toMatchObject({
      file: 'a.fits',
      kind: 'light',
      target: 'NGC 281',
      filter: 'Ha',
      telescope: 'heron 80 mm refractor',
      instrument: 'mono 26 MP',
      gain: 100,
      offset: 50,
      binning: { x: 1, y: 1 },
      sensorTemperatureC: -9.9,
      setTemperatureC: -10,
      focusPosition: 12_034,
      focusTemperatureC: 8.25,
      electronsPerAdu: 0.246,
      readNoiseElectrons: 1.5,
      focalLengthMm: 480,
      apertureMm: 80,
      pixelSizeUm: 3.76,
      width: 4,
      height: 3,
      site: { latitudeDeg: 40.42, longitudeDeg: -1.12, elevationM: 1100 },
      pierSide: 'WEST',
      rotationDeg: 91.5,
      software: 'invented 1.0',
      starSize: { pixels: 1.9, measure: 'half-flux' },
      starCount: 812,
      backgroundAdu: 1043,
      pointing: { raDeg: 13.1979, decDeg: 56.6219 },
      sizeBytes: 8640,
      codes: [],
    });
  });

  it('are absent where the header does not say', async () => {
    const {
      pointing,
      gain,
      binning,
      site,
      focusPosition,
      cards,
      codes: reported,
    } = await facts(['GAIN', null], ['FOCUSPOS', '']);
    expect([pointing, gain, binning, site, focusPosition, cards]).toEqual(Array(6).fill(undefined));
    expect(reported).toEqual([]);
  });

  it('are reported and left out where they cannot be', async () => {
    const read = await facts(
      ['CCD-TEMP', 999],
      ['XBINNING', 500],
      ['FOCALLEN', -480],
      ['GAIN', 'high'],
      ['SITEELEV', 1e6],
      ['SITELAT', 40.42],
      ['SITELONG', -1.12],
    );
    expect(read).toMatchObject({
      sensorTemperatureC: undefined,
      binning: undefined,
      focalLengthMm: undefined,
      gain: undefined,
      site: { latitudeDeg: 40.42, longitudeDeg: -1.12, elevationM: undefined },
    });
    expect(read.warnings.map(({ code, source }) => [code, source?.card])).toEqual([
      ['absurd-value', 'XBINNING'],
      ['unreadable-number', 'GAIN'],
      ['absurd-value', 'CCD-TEMP'],
      ['absurd-value', 'FOCALLEN'],
      ['absurd-value', 'SITEELEV'],
    ]);
    for (const { message, source } of read.warnings) {
      expect(message).toMatch(/^a\.fits: .*\. .+\.$/);
      expect(message).toContain(source?.card);
    }
  });

  it('tell a full width from a half-flux radius by its keyword', async () => {
    const size = async (...cards: Parameters<typeof facts>) => {
      const { starSize } = await facts(...cards);
      return [starSize?.pixels, starSize?.measure];
    };
    expect(await size(['FWHM', 3.4])).toEqual([3.4, 'fwhm']);
    expect(await size(['HFR', 1.7])).toEqual([1.7, 'half-flux']);
    expect(await size(['FWHM', 3.4], ['STARSIZE', 1.7])).toEqual([1.7, 'half-flux']);
    expect(await size()).toEqual([undefined, undefined]);
  });

  it('tell how true the clock is, where the header states it', async () => {
    const vouched = async (...cards: Parameters<typeof facts>) => (await facts(...cards)).isClockVouched;
    // FITS Standard 4.0, section 9.4.3: TIMSYER is the systematic error, in the unit of TIMEUNIT.
    expect(await vouched(['TIMSYER', 0.02])).toBe(true);
    expect(await vouched(['TIMSYER', 1], ['TIMEUNIT', 'min'])).toBeUndefined();
    expect(await vouched(['TIMSYER', 30])).toBeUndefined();
    expect(await vouched(['TIMSYER', 0])).toBeUndefined();
    expect(await vouched()).toBeUndefined();
  });

  it('tell the clock’s keeper by a keyword of the rig file', async () => {
    const vouched = async (text: string) => {
      const { frame: read } = await folder.readOne(light(['CLOCKED', text]), { extra: { timeSource: ['CLOCKED'] } });
      return read?.isClockVouched;
    };
    expect(await vouched('GPS receiver')).toBe(true);
    expect(await vouched('by hand')).toBeUndefined();
  });

  it('tell the zone of local time beside UTC', async () => {
    const zone = async (local: string) => {
      const dates: CardInput[] = [
        ['DATE-OBS', '2026-10-14T20:00:00'],
        ['DATE-LOC', local],
      ];
      return (await folder.readOne(frame([...lightWithout('DATE-OBS'), ...dates]))).frame?.localOffsetMinutes;
    };
    expect(await zone('2026-10-14T22:00:00')).toBe(120);
    expect(await zone('2026-10-15T01:30:00.5')).toBe(330);
    expect(await zone('2026-10-14T15:00:00')).toBe(-300);
    // Two clocks that differ by more than a minute tell no zone, nor does a day.
    expect(await zone('2026-10-14T22:07:00')).toBeUndefined();
    expect(await zone('2026-10-16T20:00:00')).toBeUndefined();
  });

  it('take zero for not known where nothing can be zero', async () => {
    const read = await facts(['FOCALLEN', 0], ['APTDIA', 0], ['XPIXSZ', 0], ['HFR', 0], ['FWHM', 0], ['XBINNING', 0]);
    expect([read.focalLengthMm, read.apertureMm, read.pixelSizeUm, read.starSize, read.binning]).toEqual(
      Array(5).fill(undefined),
    );
    expect(read.codes).toEqual([]);
  });

  it('read binning along one axis as binning along both', async () => {
    expect((await facts(['XBINNING', 2])).binning).toEqual({ x: 2, y: 2 });
    expect((await facts(['XBINNING', 1], ['YBINNING', 2])).binning).toEqual({ x: 1, y: 2 });
  });

  it('read XPIXSZ as the binned pixel, and tell so when frames are binned', async () => {
    expect(await facts(['XPIXSZ', 7.52], ['XBINNING', 2])).toMatchObject({
      pixelSizeUm: 3.76,
      codes: ['binned-pixel-size'],
    });
    expect(await facts(['XPIXSZ', 3.76], ['XBINNING', 1])).toMatchObject({ pixelSizeUm: 3.76, codes: [] });
    expect(await facts(['PIXSIZE1', 3.76], ['XPIXSZ', 7.52], ['XBINNING', 2])).toMatchObject({
      pixelSizeUm: 3.76,
      codes: [],
    });
  });

  it('keep markup in names as it stands', async () => {
    const { frame: read } = await folder.readOne(
      frame([...lightWithout('OBJECT'), ['OBJECT', '<script>alert(1)</script>'], ['TELESCOP', '{{x}}']]),
    );
    expect(read).toMatchObject({ target: '<script>alert(1)</script>', telescope: '{{x}}' });
  });

  it('take unquoted numbers as names where a name is asked for', async () => {
    const { frame: read } = await folder.readOne(
      frame([...lightWithout('OBJECT', 'FILTER'), ['OBJECT', 281], 'FILTER  = T']),
    );
    expect(read).toMatchObject({ target: '281', filter: 'T' });
  });
});

describe('place of the field', () => {
  const place = async (...cards: CardInput[]) => {
    const { pointing, codes: reported } = await facts(...cards);
    return { raDeg: pointing?.raDeg, decDeg: pointing?.decDeg, codes: reported };
  };
  const near = (ra: number, dec: number, reported: string[] = []) => ({
    raDeg: expect.closeTo(ra, 9),
    decDeg: expect.closeTo(dec, 9),
    codes: reported,
  });

  it('is RA and DEC in degrees, as numbers or as text', async () => {
    expect(await place(['RA', 13.25], ['DEC', -6.5])).toEqual(near(13.25, -6.5));
    expect(await place(['RA', '13.25'], ['DEC', '-6.5'])).toEqual(near(13.25, -6.5));
  });

  it('is a number of hours where the comment of its card says so: FITS Standard 4.0, section 4.3.2', async () => {
    for (const comment of ['[h] right ascension', 'RA in hours, J2000', 'centre of the field (hours)'])
      expect(await place(['RA', 2.5, comment], ['DEC', 10])).toEqual(near(37.5, 10));
    for (const comment of ['[deg] right ascension', 'RA of the field', '[h m s] of the mount'])
      expect(await place(['RA', 2.5, comment], ['DEC', 10])).toEqual(near(2.5, 10));
    expect(await place(['RA', '02:30:00', '[h]'], ['DEC', 10])).toEqual(near(37.5, 10));
  });

  it('is sexagesimal in hours and degrees', async () => {
    const ra = 15 * (52 / 60 + 59 / 3600);
    const dec = 56 + 37 / 60 + 19 / 3600;
    for (const written of ['00:52:59', '00 52 59', '0h52m59s', '00h 52m 59.0s', '0 52.98333333333333']) {
      expect(await place(['RA', written], ['DEC', '+56:37:19'])).toEqual(near(ra, dec));
    }
    for (const written of ['+56 37 19', '56:37:19.0', '56d37m19s', '+56 37\' 19"']) {
      expect(await place(['OBJCTRA', '00 52 59'], ['OBJCTDEC', written])).toEqual(near(ra, dec));
    }
    expect(await place(['RA', '13d14m45s'], ['DEC', '+56:37:19'])).toEqual(near(13 + 14 / 60 + 45 / 3600, dec));
  });

  it('keeps the sign of a declination between 0° and −1°', async () => {
    expect(await place(['RA', '05:35:17'], ['DEC', '-00:30:00'])).toEqual(near(15 * (5 + 35 / 60 + 17 / 3600), -0.5));
  });

  it('never mixes two pairs of keywords', async () => {
    expect(await place(['RA', 13.25], ['OBJCTRA', '02 00 00'], ['OBJCTDEC', '+10 00 00'])).toEqual(near(30, 10));
  });

  it('passes over a pair that makes no sense, and tells it', async () => {
    expect(await place(['RA', 400], ['DEC', 10], ['OBJCTRA', '02 00 00'], ['OBJCTDEC', '+10 00 00'])).toEqual(
      near(30, 10, ['unreadable-angle']),
    );
    expect(await place(['RA', 'east'], ['DEC', 'up'])).toEqual({
      raDeg: undefined,
      decDeg: undefined,
      codes: ['unreadable-angle', 'unreadable-angle'],
    });
    expect(await place(['RA', '00:75:00'], ['DEC', '+10:00:00'])).toMatchObject({
      raDeg: undefined,
      codes: ['unreadable-angle'],
    });
  });

  it('is not known where both are exactly zero', async () => {
    expect(await place(['RA', 0], ['DEC', 0])).toEqual({
      raDeg: undefined,
      decDeg: undefined,
      codes: ['unset-coordinates'],
    });
  });

  it('is the reference pixel of a celestial WCS as the last resort', async () => {
    const wcs: CardInput[] = [
      ['CTYPE1', 'RA---TAN'],
      ['CTYPE2', 'DEC--TAN'],
      ['CRVAL1', 13.25],
      ['CRVAL2', 56.5],
    ];
    expect(await place(...wcs)).toEqual(near(13.25, 56.5));
    expect(await place(['RA', 14], ['DEC', 57], ...wcs)).toEqual(near(14, 57));
    expect(
      await place(['CTYPE1', 'DEC--TAN-SIP'], ['CTYPE2', 'RA---TAN-SIP'], ['CRVAL1', 56.5], ['CRVAL2', 13.25]),
    ).toEqual(near(13.25, 56.5));
    expect(
      await place(['CTYPE1', 'GLON-TAN'], ['CTYPE2', 'GLAT-TAN'], ['CRVAL1', 13.25], ['CRVAL2', 56.5]),
    ).toMatchObject({ raDeg: undefined, codes: [] });
    expect(await place(['CRVAL1', 13.25], ['CRVAL2', 56.5])).toMatchObject({ raDeg: undefined });
  });

  it('is brought to J2000 from another equinox', async () => {
    const ofDate = await place(['RA', 13.25], ['DEC', 56.5], ['EQUINOX', 2026.8]);
    const apparent = await place(['RA', 13.25], ['DEC', 56.5], ['RADESYS', 'GAPPT']);
    // 26.8 years of precession move this field by about a third of a degree.
    expect(ofDate.raDeg).toBeCloseTo(12.86, 1);
    expect(ofDate.decDeg).toBeCloseTo(56.354, 2);
    expect(apparent.raDeg).toBeCloseTo(ofDate.raDeg ?? Number.NaN, 3);
    for (const cards of [
      [['EQUINOX', 2000]],
      [['EQUINOX', 'J2000']],
      [
        ['RADESYS', 'ICRS'],
        ['EQUINOX', 1950],
      ],
      [['RADESYS', 'FK5']],
    ] as CardInput[][]) {
      expect(await place(['RA', 13.25], ['DEC', 56.5], ...cards)).toEqual(near(13.25, 56.5));
    }
  });
});

describe('place of the site', () => {
  const site = async (...cards: CardInput[]) => {
    const { site: read, codes: reported } = await facts(...cards);
    return { latitude: read?.latitudeDeg, longitude: read?.longitudeDeg, elevation: read?.elevationM, codes: reported };
  };

  it('is OBSGEO-B, -L and -H of the standard first', async () => {
    expect(
      await site(['OBSGEO-B', 40.42], ['OBSGEO-L', -1.12], ['OBSGEO-H', 1100], ['SITELAT', 10], ['SITELONG', 10]),
    ).toEqual({ latitude: 40.42, longitude: -1.12, elevation: 1100, codes: [] });
  });

  it.each([
    ['+40 25 12', '-01 07 12'],
    ['40:25:12', '-1:07:12'],
    ['40 25 12 N', '1 07 12 W'],
    ['N40 25 12', 'W1 07 12'],
    ['40.42', '358.88'],
    ['40d25m12s', '-1d07m12s'],
  ])('may be written as %s, %s', async (latitude, longitude) => {
    expect(await site(['SITELAT', latitude], ['SITELONG', longitude])).toMatchObject({
      latitude: expect.closeTo(40.42, 9),
      longitude: expect.closeTo(-1.12, 9),
      codes: [],
    });
  });

  it('is south and west with a minus sign or a letter', async () => {
    expect(await site(['SITELAT', '33 30 00 S'], ['SITELONG', '70 30 00 W'])).toMatchObject({
      latitude: -33.5,
      longitude: -70.5,
    });
    expect(await site(['SITELAT', '-33 30 00'], ['SITELONG', '-70 30 00'])).toMatchObject({
      latitude: -33.5,
      longitude: -70.5,
    });
  });

  it('is reported and left out when it cannot be, or was never set', async () => {
    expect(await site(['SITELAT', 140], ['SITELONG', -1])).toMatchObject({
      latitude: undefined,
      codes: ['unreadable-angle'],
    });
    expect(await site(['SITELAT', '40 25 12 E'], ['SITELONG', -1])).toMatchObject({
      latitude: undefined,
      codes: ['unreadable-angle'],
    });
    expect(await site(['SITELAT', 0], ['SITELONG', 0], ['SITEELEV', 0])).toMatchObject({
      latitude: undefined,
      elevation: undefined,
      codes: ['unset-coordinates'],
    });
  });
});
