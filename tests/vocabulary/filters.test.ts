import { describe, expect, it } from 'vitest';
import {
  FILTER_NAMES,
  FILTERS,
  filterMeant,
  filterSpelt,
  filterWavelengthNm,
  isNarrowband,
} from '../../src/vocabulary/index.js';

describe('the name of a filter', () => {
  it('is known by each of its spellings, and no spelling means two filters', () => {
    for (const name of FILTER_NAMES) {
      expect(filterSpelt(name)).toBe(name);
      for (const spelling of FILTERS[name].spellings) expect(filterSpelt(spelling)).toBe(name);
    }
    const all = FILTER_NAMES.flatMap((name) => FILTERS[name].spellings);
    expect(new Set(all).size).toBe(all.length);
  });

  it.each([
    ['H-alpha', 'Ha'],
    ['Hα', 'Ha'],
    ['H α', 'Ha'],
    ['Ha 3 nm', 'Ha'],
    ['Ha_3nm', 'Ha'],
    ['O III 6.5nm', 'OIII'],
    ['[O III]', 'OIII'],
    ['L 2in', 'L'],
    ['Luminanz', 'L'],
    ['GRÜN', 'G'],
    ['H-beta', 'Hb'],
    ['No filter', 'None'],
    ['656.3 nm', 'Ha'],
    ['500.7', 'OIII'],
    ['672nm', 'SII'],
  ] as const)('%s means %s', (written, name) => {
    expect(filterMeant(written)).toBe(name);
  });

  it.each(['', 'UV/IR cut', 'Moon', 'Duo', 'Harvest', '610 nm', '100'])('%j is none of the table', (written) => {
    expect(filterMeant(written)).toBeNull();
    expect(filterWavelengthNm(written)).toBeNull();
  });

  it('is replaced only where the whole of it is a spelling: a width is worth keeping', () => {
    expect(filterSpelt('Ha 3 nm')).toBeNull();
  });
});

describe('narrowband', () => {
  it.each(['Ha', 'SII', 'N II', 'H-beta', 'Ha-OIII', 'Duo 7 nm', 'Narrow 5'])('%s is', (name) => {
    expect(isNarrowband(name)).toBe(true);
  });
  it.each(['L', 'Red', 'None', 'UV/IR cut', ''])('%j is not', (name) => {
    expect(isNarrowband(name)).toBe(false);
  });
});
