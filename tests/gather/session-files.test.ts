import { describe, expect, it } from 'vitest';
import { listSessionFiles } from '../../src/gather/session-files.js';
import { writeFiles } from '../support/generator/samples.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

describe('the files of a session folder', () => {
  it('are looked at up to a number, and what was left out is reported', () => {
    const folder = tempFolder();
    writeFiles(folder, new Map(['a/1.fits', 'a/2.fits', 'b/3.fits', 'b/4.fits'].map((path) => [path, 'x'])));
    const whole = listSessionFiles(folder, [], false, 6);
    expect(whole).toMatchObject({ warnings: [] });
    expect(whole.files).toHaveLength(4);
    const cut = listSessionFiles(folder, [], false, 4);
    expect(cut.files.map(({ path }) => path)).toEqual(['a/1.fits', 'a/2.fits']);
    expect(cut.warnings).toMatchObject([{ code: 'too-many-files', source: { file: 'a/2.fits' } }]);
  });
});
