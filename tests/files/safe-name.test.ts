import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distinctNames, namesBeside, safeFileName, safeName } from '../../src/files/safe-name.js';
import { anyText } from '../support/any-text.js';

/** What Windows refuses in a name, or keeps for itself (Microsoft, "Naming Files, Paths, and Namespaces"; from memory). */
const REFUSED = /[<>:"/\\|?*\p{Cc}]|[. ]$|^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/iu;

describe('a safe name', () => {
  it('keeps letters, digits and what catalogues write', () => {
    expect(safeName('NGC 281')).toBe('NGC-281');
    expect(safeName('M 33 (north)')).toBe('M-33-north');
    expect(safeName('Ηα+[OIII]')).toBe('Ηα+-OIII');
    expect(safeName('H₂')).toBe('H₂');
    expect(safeName('   ')).toBe('unnamed');
    expect(safeName('..', 'no-target')).toBe('no-target');
  });

  it('is none that Windows keeps for devices', () => {
    expect(safeName('CON')).toBe('x-CON');
    expect(safeName('aux.1')).toBe('x-aux.1');
    expect(safeFileName('nul.fits')).toBe('x-nul.fits');
    expect(safeName('console')).toBe('console');
  });

  it('is taken by every system, whatever the text', () => {
    fc.assert(
      fc.property(anyText({ maxLength: 400 }), (text) => {
        for (const name of [safeName(text), safeFileName(text), safeFileName(`${text}.fits`)]) {
          expect(name).not.toMatch(REFUSED);
          expect(name).not.toBe('');
          expect(name.startsWith('.')).toBe(false);
          expect(Buffer.byteLength(name)).toBeLessThan(230);
        }
      }),
    );
  });

  it('of a file keeps spaces, quotes and its ending', () => {
    expect(safeFileName('it\'s a "night" 1.fits.gz')).toBe("it's a -night- 1.fits.gz");
    expect(safeFileName('two\nlines.fit')).toBe('two-lines.fit');
    expect(safeFileName(`${'long'.repeat(100)}.fits`)).toMatch(/long\.fits$|lo\.fits$|l\.fits$|lon\.fits$/);
  });
});

describe('names for several keys', () => {
  it('differ even where upper and lower case are one, in whichever order they come', () => {
    const keys = ['M 33', 'm 33', 'M-33'];
    const names = distinctNames(keys, (key) => safeName(key));
    expect(new Set([...names.values()].map((name) => name.toLowerCase())).size).toBe(3);
    expect(distinctNames([...keys].reverse(), (key) => safeName(key))).toEqual(names);
  });

  it('go on with the night, then with a number', () => {
    const names = namesBeside('light_1.fits.gz', '2026-10-14');
    expect([names.next().value, names.next().value, names.next().value]).toEqual([
      'light_1.fits.gz',
      'light_1_2026-10-14.fits.gz',
      'light_1_2026-10-14-2.fits.gz',
    ]);
  });
});
