import { describe, expect, it } from 'vitest';
import { isDeepRedLine, isNarrowband, statedFilter } from '../../src/model/index.js';

/** Wavelengths of the lines: NIST Atomic Spectra Database, air, rounded to what makers of filters print. */
const cameras: Parameters<typeof statedFilter>[2] = [
  {
    id: 'heron',
    filterWidthsNm: { '1': 100, '2': 5, '3': 3, Red: 3, wide: 30, gas: 6 },
    filterWavelengthsNm: { '2': 656, '3': 501, gas: 630 },
  },
  { id: 'wren', filterWidthsNm: { '2': 90 }, filterWavelengthsNm: {} },
];
const meant = (filter: string, train = 'heron') => statedFilter(filter, train, cameras);

describe('a filter whose name does not tell it', () => {
  it('is what the rig file states of it: a line, or a width that bears moonlight', () => {
    expect([meant('2'), meant(' 3 '), meant('gas'), meant('wide')]).toEqual(['Ha', 'OIII', 'gas 6 nm', 'wide 30 nm']);
    expect(isDeepRedLine(meant('2'))).toBe(true);
    expect(isNarrowband(meant('gas')) && isNarrowband(meant('wide'))).toBe(true);
  });

  it('is broad where it is wide, and where nothing is stated; on each train by what that has', () => {
    expect([meant('1'), meant('2', 'wren'), meant('4'), meant('2', 'owl')]).toEqual(['1', '2', '4', '2']);
    expect(isNarrowband(meant('1')) || isNarrowband(meant('2', 'wren'))).toBe(false);
  });

  it('keeps a name that says what it is', () => {
    expect([meant('Red'), meant('Ha 7nm'), meant('Duo-band')]).toEqual(['Red', 'Ha 7nm', 'Duo-band']);
  });
});
