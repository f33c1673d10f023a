import { describe, expect, it } from 'vitest';
import { paletteOf, styleFilters } from '../../../src/report/design/filters.js';
import { namedNight } from '../../support/nights.js';

const colourOf = (name: string): string | undefined => styleFilters([name]).get(name)?.colour;

describe('filters of the trade', () => {
  it.each([
    ['L', 'filter-l'],
    ['Luminance', 'filter-l'],
    ['R', 'filter-r'],
    ['green', 'filter-g'],
    ['B', 'filter-b'],
    ['Ha', 'filter-ha'],
    ['H-alpha', 'filter-ha'],
    ['Hα', 'filter-ha'],
    ['OIII', 'filter-oiii'],
    ['O3', 'filter-oiii'],
    ['SII', 'filter-sii'],
    ['Ha 3 nm', 'filter-ha'],
    ['OIII_6nm', 'filter-oiii'],
  ])('knows %s', (name, token) => {
    expect(colourOf(name)).toBe(token);
  });

  it('keeps the name as the header has it', () => {
    expect(styleFilters(['Ha 3 nm']).get('Ha 3 nm')).toMatchObject({ label: 'Ha 3 nm', short: 'Ha' });
  });
});

describe('other filters', () => {
  it('gives the same name the same colour, whatever stands beside it', () => {
    expect(colourOf('UV/IR cut')).toBe(styleFilters(['Ha', 'UV/IR cut', 'L']).get('UV/IR cut')?.colour);
    expect(colourOf('UV/IR cut')).toMatch(/^filter-other-[1-6]$/);
  });

  it('gives two names of one night two colours', () => {
    const names = ['UV/IR cut', 'Dual band', 'Methane', 'Photometric V', 'Sky glow', 'Near infrared'];
    const colours = names.map((name) => styleFilters(names).get(name)?.colour);
    expect(new Set(colours).size).toBe(names.length);
  });

  it('still names a colour when there are more names than colours', () => {
    const names = Array.from({ length: 20 }, (_, index) => `glass ${index}`);
    for (const style of styleFilters(names).values()) expect(style.colour).toMatch(/^filter-other-[1-6]$/);
  });

  it('says so when no filter is named', () => {
    expect(styleFilters(['']).get('')).toMatchObject({ label: 'no filter named', short: '—' });
  });
});

describe('paletteOf', () => {
  it('gives trains their colours in order, the pilot the first', () => {
    const palette = paletteOf(namedNight('three-trains'));
    expect(['heron', 'wren', 'stilt'].map((id) => palette.train(id))).toEqual(['train-1', 'train-2', 'train-3']);
  });

  it('falls back to the unnamed style for a filter of another night', () => {
    expect(paletteOf(namedNight('two-hours')).filter('never seen').label).toBe('no filter named');
  });
});
