import { filterWavelengthNm } from '../../src/model/index.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { extinctionCoefficient, filterExtinction } from '../../src/sky/index.js';

describe('extinction', () => {
  test('is not given outside the wavelengths of the table', () => {
    expect(extinctionCoefficient(439.9, 1700)).toBeNull();
    expect(extinctionCoefficient(810.1, 1700)).toBeNull();
    expect(extinctionCoefficient(NaN, 1700)).toBeNull();
    expect(extinctionCoefficient(440, 1700)).not.toBeNull();
    expect(extinctionCoefficient(810, 1700)).not.toBeNull();
  });

  test('falls with wavelength and with height', () => {
    const nm = fc.double({ min: 440, max: 809, noNaN: true });
    const height = fc.double({ min: 0, max: 4000, noNaN: true });
    fc.assert(
      fc.property(nm, height, (wavelength, metres) => {
        const here = extinctionCoefficient(wavelength, metres) ?? NaN;
        expect(extinctionCoefficient(wavelength + 1, metres) ?? NaN).toBeLessThan(here);
        expect(extinctionCoefficient(wavelength, metres + 100) ?? NaN).toBeLessThan(here);
      }),
    );
  });
});

describe('filters', () => {
  test.each(['L', 'R', 'G', 'B', 'Ha', 'OIII', 'SII'])('%s has a wavelength in the table', (filter) => {
    expect(filterExtinction(filter, 1100)).toBeGreaterThan(0);
  });

  test('are known in any case and punctuation', () => {
    for (const name of ['Ha', 'HA', 'h-a', 'H α', 'Hα']) expect(filterWavelengthNm(name)).toBe(656.3);
    for (const name of ['OIII', 'O III', '[O III]', 'oiii']) expect(filterWavelengthNm(name)).toBe(500.7);
  });

  test('are known by other spellings, and by their first word', () => {
    for (const name of ['Lum', 'luminance', 'L 2in', 'Clear']) expect(filterWavelengthNm(name)).toBe(550);
    for (const name of ['H-alpha', 'Ha 3 nm', 'Ha_3nm']) expect(filterWavelengthNm(name)).toBe(656.3);
    expect(filterWavelengthNm('Blue')).toBe(450);
  });

  test('of another name have none', () => {
    expect(filterWavelengthNm('Moon')).toBeNull();
    expect(filterExtinction('', 1100)).toBeNull();
  });

  test('blue light is dimmed most, then green, then red', () => {
    const [b, g, r] = ['B', 'G', 'R'].map((filter) => filterExtinction(filter, 1100) ?? NaN);
    expect(b).toBeGreaterThan(g ?? NaN);
    expect(g).toBeGreaterThan(r ?? NaN);
  });
});
