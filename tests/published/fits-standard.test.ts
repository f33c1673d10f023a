/**
 * Examples and rules of the FITS Standard 4.0 (IAU FITS Working Group, 2018-08-13), by section.
 * Read in the standard's text unless marked 'from memory'.
 */
import { describe, expect, it } from 'vitest';
import { dataBytes, OWN_SHAPE, readShape } from '../../src/gather/fits/image-shape.js';
import { parseDateTime, toUtcMs } from '../../src/gather/fits/dates.js';
import { readImages, onlyValue } from '../gather/fits/header-files.js';

describe('section 4.2.1.1, single-record strings', () => {
  it("reads O'HARA", () => expect(onlyValue("NAME    = 'O''HARA'")).toBe("O'HARA"));

  it('tells null, empty and undefined apart as far as trailing spaces allow', () => {
    const { values } = readImages(
      "KEYWORD1= ''                   / null string keyword",
      "KEYWORD2= '   '                / empty string keyword",
      'KEYWORD3=                      / undefined keyword',
    );
    expect([...values.values()]).toEqual(['', '', null]);
  });
});

describe('section 4.2.1.2, long strings', () => {
  it('joins the weather report', () => {
    expect(
      onlyValue(
        "WEATHER = 'Partly cloudy during the evening f&'",
        "CONTINUE  'ollowed by cloudy skies overnight.&'",
        "CONTINUE  ' Low 21C. Winds NNE at 5 to 10 mph.'",
      ),
    ).toBe('Partly cloudy during the evening followed by cloudy skies overnight. Low 21C. Winds NNE at 5 to 10 mph.');
  });

  it('joins strings continued for the sake of the comment', () => {
    expect(
      onlyValue(
        "STRKEY  = 'This keyword value is continued &'",
        "CONTINUE  ' over multiple keyword records.&'",
        "CONTINUE  '&' / The comment field for this",
        "CONTINUE  '&' / keyword is also continued",
        "CONTINUE  '' / over multiple records.",
      ),
    ).toBe('This keyword value is continued  over multiple keyword records.');
  });
});

describe('sections 4.2.3 to 4.3.2, numbers', () => {
  it('reads the example of a unit in the comment', () =>
    expect(onlyValue('EXPTIME = 1200. / [s] exposure time in seconds')).toBe(1200));
  it('passes over the complex numbers (123, 45) and (123.23, -45.7)', () => {
    expect(onlyValue('COMPLEX = (123, 45)')).toBeNull();
    expect(onlyValue('COMPLEX = (123.23, -45.7)')).toBeNull();
  });
});

describe('section 4.4.1, the primary array of table 9', () => {
  const { cards, values } = readImages(
    'SIMPLE  =                    T / file does conform to FITS Standard',
    'BITPIX  =                   16 / number of bits per data pixel',
    'NAXIS   =                    2 / number of data axes',
    'NAXIS1  =                  250 / length of data axis 1',
    'NAXIS2  =                  300 / length of data axis 2',
    "OBJECT  = 'Cygnus X-1'",
    "DATE    = '2006-10-22'",
  );
  it('is read', () => {
    expect(Object.fromEntries(values)).toEqual({
      SIMPLE: true,
      BITPIX: 16,
      NAXIS: 2,
      NAXIS1: 250,
      NAXIS2: 300,
      OBJECT: 'Cygnus X-1',
      DATE: '2006-10-22',
    });
  });
  it('has 1,200,000 bits by equation 1', () => {
    const shape = readShape(cards, OWN_SHAPE);
    expect('code' in shape ? shape.what : dataBytes(cards, shape) * 8).toBe(16 * 250 * 300);
  });
});

describe('the HIERARCH convention of the FITS registry (from memory)', () => {
  it('names a keyword by its hierarchy', () => {
    const { values } = readImages(
      "HIERARCH ESO OBS OBSERVER = 'nobody'",
      'HIERARCH ESO INS FOCU POS = -0.00002500 / (m) Focus',
    );
    expect([...values]).toEqual([
      ['ESO OBS OBSERVER', 'nobody'],
      ['ESO INS FOCU POS', -0.000025],
    ]);
  });
});

describe('sections 4.4.2.1 and 9.1.1, dates', () => {
  it('reads CCYY-MM-DD[Thh:mm:ss[.s...]]', () => {
    expect(parseDateTime('1996-10-14')).toEqual({ ms: Date.UTC(1996, 9, 14), hasTime: false });
    expect(parseDateTime('1996-10-14T10:14:36')).toEqual({ ms: Date.UTC(1996, 9, 14, 10, 14, 36), hasTime: true });
    expect(parseDateTime('1996-10-14T10:14:36.123')).toEqual({
      ms: Date.UTC(1996, 9, 14, 10, 14, 36, 123),
      hasTime: true,
    });
  });
  it('reads DD/MM/YY as a year from 1900 to 1999', () => {
    expect(parseDateTime('14/10/96')).toEqual({ ms: Date.UTC(1996, 9, 14), hasTime: false });
  });
  it('lets the seconds of UTC run to 60', () => {
    expect(parseDateTime('2016-12-31T23:59:60')?.ms).toBe(Date.UTC(2017, 0, 1));
    expect(parseDateTime('2016-12-31T23:59:61')).toBeUndefined();
  });
});

describe('table 30, time scales', () => {
  const at = Date.UTC(2015, 6, 1, 12);
  it('has UTC = TAI − 36 s as of 2015-07-01', () => expect(toUtcMs(at, 'TAI')).toBe(at - 36_000));
  it('has TT = TAI + 32.184 s', () => expect(toUtcMs(at, 'TT')).toBe(at - 36_000 - 32_184));
  it('has GPS = TAI − 19 s', () => expect(toUtcMs(at, 'GPS')).toBe(at - 36_000 + 19_000));
});

describe('leap seconds (IERS Bulletin C)', () => {
  it.each([
    ['1972-01-01', 10],
    ['1980-01-06', 19],
    ['1999-01-01', 32],
    ['2006-01-01', 33],
    ['2009-01-01', 34],
    ['2012-07-01', 35],
    ['2015-07-01', 36],
    ['2017-01-01', 37],
    ['2026-10-14', 37],
  ])('TAI − UTC from %s on is %d s', (date, seconds) => {
    const utc = Date.parse(date);
    expect(toUtcMs(utc + seconds * 1000, 'TAI')).toBe(utc);
  });
  it('changes at the step and not before', () => {
    const step = Date.UTC(2017, 0, 1);
    expect(toUtcMs(step - 1000 + 36_000, 'TAI')).toBe(step - 1000);
    expect(toUtcMs(step + 37_000, 'TAI')).toBe(step);
  });
  it('makes GPS and UTC agree on 1980-01-06, the beginning of GPS time', () => {
    expect(toUtcMs(Date.UTC(1980, 0, 6), 'GPS')).toBe(Date.UTC(1980, 0, 6));
  });
});
