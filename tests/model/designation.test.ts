import { describe, expect, it } from 'vitest';
import { designationIn, designationOfPath, wholeDesignation } from '../../src/model/index.js';

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
  });

  it('of a mosaic’s panel is a target of its own, of the whole', () => {
    expect(designationOfPath('M31/panel 2/L_0001.fits')).toEqual({ name: 'M 31 panel 2', parent: 'M 31' });
    expect(designationIn('IC1396_tile03_Ha')).toEqual({ name: 'IC 1396 panel 3', parent: 'IC 1396' });
  });

  it('that is the whole text is one name in all spellings', () => {
    expect(['M31', 'M 31', 'NGC224', ' messier 31 '].map(wholeDesignation)).toEqual(['M 31', 'M 31', 'M 31', 'M 31']);
    expect(['M 31 halo', 'field of NGC 281', 'Rho'].map(wholeDesignation)).toEqual([null, null, null]);
  });
});
