import { describe, expect, it } from 'vitest';
import {
  designationIn,
  designationOfPath,
  panelSpelt,
  targetKey,
  wholeDesignation,
  wholeOfPanel,
} from '../../src/model/index.js';

describe('a designation', () => {
  it.each([
    ['M31', 'M 31'],
    ['m 31', 'M 31'],
    ['Messier_031', 'M 31'],
    ['NGC224', 'M 31'],
    ['ngc-0281', 'NGC 281'],
    ['IC 1396', 'IC 1396'],
    ['Sh2-155', 'Sh2-155'],
    ['sh2_155', 'Sh2-155'],
    ['vdB 152', 'vdB 152'],
    ['LDN1251', 'LDN 1251'],
    ['Barnard 33', 'Barnard 33'],
    ['B33', 'Barnard 33'],
  ])('in "%s" is %s', (text, name) => {
    expect(designationIn(text)?.name).toBe(name);
  });

  it.each(['Light_Ha_300s_0001', 'B_0003', 'bin2', 'frame31', 'M200', '2026-10-14', 'NGC9999', 'gain100_B-2'])(
    'is none in "%s"',
    (text) => {
      expect(designationIn(text)).toBeNull();
    },
  );

  it('is looked for in the file’s name, then in its folders from the inside out', () => {
    expect(designationOfPath('lights/M31/Ha/heron_0001.fits')?.name).toBe('M 31');
    expect(designationOfPath('autumn M33/NGC 281/M 31_L_001.fits.fz')?.name).toBe('M 31');
    expect(designationOfPath('lights/Ha/0001.fits')).toBeNull();
    // The blue filter and a running number.
    expect(designationOfPath('lights/NGC 891/B12.fits')?.name).toBe('NGC 891');
    expect(designationOfPath('lights/B33_L_001.fits')?.name).toBe('Barnard 33');
  });

  it('of a mosaic’s panel is a target of its own, of the whole', () => {
    expect(designationOfPath('M31/panel 2/L_0001.fits')).toMatchObject({ name: 'M 31 panel 2', parent: 'M 31' });
    expect(designationIn('IC1396_tile03_Ha')).toMatchObject({ name: 'IC 1396 panel 3', parent: 'IC 1396' });
  });

  it('that is the whole text is one name in all spellings', () => {
    expect(['M31', 'M 31', 'NGC224', ' messier 31 '].map(wholeDesignation)).toEqual(['M 31', 'M 31', 'M 31', 'M 31']);
    expect(['M 31 halo', 'field of NGC 281', 'Rho'].map(wholeDesignation)).toEqual([null, null, null]);
  });

  it.each([
    ['NGC253_P1', 'NGC 253 panel 1'],
    ['NGC 253 panel 2', 'NGC 253 panel 2'],
    ['M31-P3', 'M 31 panel 3'],
    ['M 31 Panel #4', 'M 31 panel 4'],
    ['NGC 7000 P1', 'NGC 7000 panel 1'],
    ['NGC2023 P1', 'NGC 2023 panel 1'],
    ['IC1396 r1c2', 'IC 1396 panel r1c2'],
    ['IC1396 row 2 col 03', 'IC 1396 panel r2c3'],
    ['Sh2-240 panel b', 'Sh2-240 panel B'],
    ['Veil P2', 'Veil panel 2'],
    ['Veil_tile-02', 'Veil panel 2'],
    ['Vela mosaic part 5', 'Vela mosaic panel 5'],
  ])('of a panel is one in the usual ways of writing it: %s', (name, spelt) => {
    expect(panelSpelt(name)).toBe(spelt);
    expect(wholeOfPanel(name)).toBe(spelt.replace(/ panel .*/, ''));
    expect(targetKey(name)).toBe(targetKey(panelSpelt(name) ?? ''));
  });

  // Comets of the first and second half of August bear the letters P and Q (IAU, 1995); P stands in other names, too.
  it.each([
    'C/2023 P1',
    'C2023_P1',
    'comet 2023 P1',
    'P1',
    '46P',
    'M31',
    'Rho Oph',
    'mosaic 2x3',
    'HIP 123',
    'Sh2-101',
  ])('of no panel stays as it is: %s', (name) => {
    expect(panelSpelt(name)).toBeNull();
    expect(wholeOfPanel(name)).toBeNull();
  });
});
