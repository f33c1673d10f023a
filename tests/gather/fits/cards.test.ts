import { describe, expect, it } from 'vitest';
import { parseCards } from '../../../src/gather/fits/cards.js';
import { KeywordSet } from '../../../src/gather/fits/keyword-set.js';
import { headerBytes, readImages, onlyValue } from './header-files.js';

describe('strings', () => {
  it('reads doubled quotes as one', () => {
    expect(onlyValue("OBJECT  = 'Cierzo''s star'")).toBe("Cierzo's star");
    expect(onlyValue("OBJECT  = ''''")).toBe("'");
    expect(onlyValue("OBJECT  = ''''''")).toBe("''");
  });

  it('keeps leading spaces and drops trailing ones', () => {
    expect(onlyValue("OBJECT  = '  NGC 281   '")).toBe('  NGC 281');
  });

  it('keeps a slash within quotes and drops the comment after them', () => {
    expect(onlyValue("OBJECT  = 'NGC 281 / IC 1590' / target / of the night")).toBe('NGC 281 / IC 1590');
  });

  it('reads a string that begins after column 11', () => {
    expect(onlyValue("OBJECT  =      'NGC 281'")).toBe('NGC 281');
  });

  it('reads a full card of 68 characters', () => {
    expect(onlyValue(`OBJECT  = '${'x'.repeat(68)}'`)).toBe('x'.repeat(68));
  });

  it('reads to the end of the card when the closing quote is missing', () => {
    expect(onlyValue("OBJECT  = 'NGC 281", "FILTER  = 'Ha'")).toBe('NGC 281');
    expect(onlyValue(`OBJECT  = '${'x'.repeat(69)}`, "FILTER  = 'Ha'")).toBe('x'.repeat(69));
  });

  it('takes a doubled quote at the end of the card as the string running out', () => {
    expect(onlyValue(`OBJECT  = '${'x'.repeat(67)}''`, "'ILTER  = 'Ha'")).toBe(`${'x'.repeat(67)}'`);
  });

  it('reads UTF-8 and Latin-1 bytes, which the standard does not allow', () => {
    expect(onlyValue(`OBJECT  = '${Buffer.from('Cúmulo').toString('latin1')}'`)).toBe('Cúmulo');
    expect(onlyValue("OBJECT  = 'C\xfamulo'")).toBe('Cúmulo');
  });

  it('reads control characters and NUL padding as spaces', () => {
    expect(onlyValue("OBJECT  = 'NGC\t281\0\0\0'")).toBe('NGC 281');
  });

  it('keeps markup as it stands', () => {
    expect(onlyValue("OBJECT  = '<script>{{x}}</script>'")).toBe('<script>{{x}}</script>');
  });

  it('takes what a writer left unquoted as text up to the comment', () => {
    expect(onlyValue('DATE-OBS= 2026-10-14T19:42:10.250 / start')).toBe('2026-10-14T19:42:10.250');
    expect(onlyValue('OBJECT  = NGC 281')).toBe('NGC 281');
    expect(onlyValue('OBJECT  = M/33 / target')).toBe('M/33');
  });
});

describe('long strings', () => {
  it('joins CONTINUE cards', () => {
    expect(onlyValue("NOTES   = 'one &'", "CONTINUE  'two &'", "CONTINUE  'three' / and a comment")).toBe(
      'one two three',
    );
  });

  it('takes & as the last character when no CONTINUE follows', () => {
    expect(onlyValue("OBJECT  = 'M 33 &'", "FILTER  = 'L'")).toBe('M 33 &');
    expect(onlyValue("OBJECT  = 'M 33 &'")).toBe('M 33 &');
  });

  it('takes & as the last character when CONTINUE holds no string', () => {
    expect(onlyValue("OBJECT  = 'M 33 &'", 'CONTINUE  and so on')).toBe('M 33 &');
    expect(onlyValue("OBJECT  = 'M 33 &'", 'CONTINUE')).toBe('M 33 &');
    expect(onlyValue("OBJECT  = 'M 33 &'", "CONTINUE= 'and so on'")).toBe('M 33 &');
  });

  it('passes over an orphaned CONTINUE', () => {
    const { values } = readImages("OBJECT  = 'M 33'", "CONTINUE  'of nothing'", "FILTER  = 'L'");
    expect([...values]).toEqual([
      ['OBJECT', 'M 33'],
      ['FILTER', 'L'],
    ]);
  });
});

describe('numbers', () => {
  it.each([
    ['300', 300],
    ['+7', 7],
    ['-10', -10],
    ['007', 7],
    ['1200.', 1200],
    ['.5', 0.5],
    ['-.25', -0.25],
    ['1.5E3', 1500],
    ['1.5e3', 1500],
    ['1.5D3', 1500],
    ['1.5d-3', 0.0015],
    ['-2e+2', -200],
    ['1E22', 1e22],
    ['13.1979166666666666667', 13.1979166666666666667],
    ['12345678901234567890', 12345678901234567890],
  ])('reads %s in fixed and in free format', (written, value) => {
    expect(onlyValue(`NUMBER  = ${written.padStart(20)}`)).toBe(value);
    expect(onlyValue(`NUMBER  = ${written.padStart(20)} / comment`)).toBe(value);
    expect(onlyValue(`NUMBER  = ${written}`)).toBe(value);
    expect(onlyValue(`NUMBER  = ${written}/comment`)).toBe(value);
    expect(onlyValue(`NUMBER  =${written}`)).toBe(value);
    expect(onlyValue(`NUMBER  = ${' '.repeat(30)}${written} / 7`)).toBe(value);
  });

  it('reads a fixed-format number whose comment follows at once', () => {
    expect(onlyValue(`NUMBER  = ${'300'.padStart(20)}/ seconds`)).toBe(300);
  });

  it.each(['NaN', 'nan', 'Infinity', '1,5', '0x1F', '0x10', '0b11', '1.2.3', '1e', '--1', '12 13'])(
    'keeps %s as text, for it is no FITS number',
    (written) => {
      expect(onlyValue(`NUMBER  = ${written.padStart(20)}`)).toBe(written);
      expect(onlyValue(`NUMBER  = ${written}`)).toBe(written);
    },
  );
});

describe('other values', () => {
  it('reads logicals in fixed and in free format', () => {
    expect(onlyValue(`FLAG    = ${'T'.padStart(20)} / yes`)).toBe(true);
    expect(onlyValue(`FLAG    = ${'F'.padStart(20)}`)).toBe(false);
    expect(onlyValue('FLAG    = T')).toBe(true);
    expect(onlyValue('FLAG    = F/no')).toBe(false);
  });

  it('reads a card without a value, and a complex number, as null', () => {
    expect(onlyValue('NOTHING =')).toBeNull();
    expect(onlyValue('NOTHING =                      / no value')).toBeNull();
    expect(onlyValue('PHASE   = (1.5, -2.5)')).toBeNull();
  });
});

describe('keywords', () => {
  it('passes over blank, COMMENT and HISTORY cards, even with an equals sign', () => {
    const { values } = readImages(
      '',
      "COMMENT = 'no value'",
      'HISTORY   nor here',
      "        = 'nor here'",
      "FILTER  = 'L'",
    );
    expect([...values]).toEqual([['FILTER', 'L']]);
  });

  it('passes over a keyword without the value indicator', () => {
    expect(readImages("FILTER    'L'", "OBJECT   ='M 33'").values.size).toBe(0);
  });

  it('reads lower-case keywords', () => {
    expect(readImages("filter  = 'L'").values.get('FILTER')).toBe('L');
  });

  it('reads HIERARCH keywords under their long name', () => {
    const { values } = readImages(
      'HIERARCH ESO INS FOCU POS = 12.5 / focuser',
      "HIERARCH  Eso  Tel Name='heron' / name = value",
    );
    expect([...values]).toEqual([
      ['ESO INS FOCU POS', 12.5],
      ['ESO TEL NAME', 'heron'],
    ]);
  });

  it('passes over HIERARCH without an equals sign of its own', () => {
    expect(readImages('HIERARCH of the observatory', "FILTER  = 'L'").values.size).toBe(1);
  });

  it('reads wanted keywords alone, HIERARCH ones among them', () => {
    const header = headerBytes(
      "FILTER  = 'L'",
      "OBJECT  = 'M 33'",
      'HIERARCH ESO INS FOCU POS = 12.5',
      'HIERARCH ESO INS FOCU TEMP = 3',
    );
    const { cards, end } = parseCards(
      header,
      header.cardCount,
      new KeywordSet(['OBJECT', 'ESO INS FOCU POS', 'GAIN']),
      [],
    );
    expect([...cards.toMap()].sort()).toEqual([
      ['ESO INS FOCU POS', 12.5],
      ['OBJECT', 'M 33'],
    ]);
    expect(cards.get('FILTER')).toBeUndefined();
    expect(end).toBe(4);
  });

  it('uses the first of two cards of one keyword and tells that they differ', () => {
    const { values, notes } = readImages("FILTER  = 'L'", "FILTER  = 'L'", "FILTER  = 'R'");
    expect(values.get('FILTER')).toBe('L');
    expect(notes).toMatchObject([{ code: 'duplicate-card', card: 'FILTER' }]);
    expect(notes[0]?.what).toContain("'L' and 'R'");
  });
});
