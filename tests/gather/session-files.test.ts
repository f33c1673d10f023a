import { symlinkSync, writeFileSync } from 'node:fs';
import { join, parse } from 'node:path';
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

  it('are not the hidden ones; hidden frames are counted and named', () => {
    const folder = tempFolder();
    // The last one is what some file systems write beside a file: no frame.
    const paths = ['a/.2.fits', 'a/.3.fit.gz', '.trash/4.fits', '.notes.txt', 'a/._1.fits', 'a/1.fits'];
    writeFiles(folder, new Map(paths.map((path) => [path, 'x'])));
    const { files, warnings } = listSessionFiles(folder);
    expect(files.map(({ path }) => path)).toEqual(['a/1.fits']);
    expect(warnings).toMatchObject([{ code: 'hidden-frames', source: { file: 'a/.2.fits' }, count: 2 }]);
    expect(warnings[0]?.message).toContain('2 hidden FITS files (a/.2.fits, …) were left out');
  });

  it('do not include archives; such files are reported', () => {
    const folder = tempFolder();
    const paths = ['a/1.fits.gz', 'a/2.fits.fz', 'a/3.FITS.xz', 'old.zip', 'logs.tar.gz', 'wren.log.gz', 'notes.txt'];
    writeFiles(folder, new Map(paths.map((path) => [path, 'x'])));
    const { warnings } = listSessionFiles(folder);
    expect(warnings).toMatchObject([{ code: 'packed-files', source: { file: 'a/3.FITS.xz' }, count: 3 }]);
    expect(warnings[0]?.message).toContain('3 packed files (a/3.FITS.xz, …) were not looked into; unpack them');
  });

  it.skipIf(process.platform !== 'linux')(
    'are those with a name that can be opened; what to do with others is reported',
    () => {
      const folder = tempFolder();
      writeFileSync(Buffer.concat([Buffer.from(join(folder, 'caf')), Buffer.from([0xe9]), Buffer.from('.fits')]), 'x');
      const { files, warnings } = listSessionFiles(folder);
      expect(files).toEqual([]);
      expect(warnings[0]?.message).toContain('its name is not UTF-8, so that it cannot be opened; rename it');
    },
  );

  it.skipIf(process.platform === 'win32')('are no devices and pipes; those named as frames are reported', () => {
    const folder = tempFolder();
    writeFiles(folder, new Map([['a/1.fits', 'x']]));
    symlinkSync('/dev/null', join(folder, 'a', '2.fits'));
    symlinkSync('/dev/null', join(folder, 'a', 'notes'));
    const { files, warnings } = listSessionFiles(folder);
    expect(files.map(({ path }) => path)).toEqual(['a/1.fits']);
    expect(warnings.filter(({ code }) => code === 'not-a-file')).toMatchObject([{ source: { file: 'a/2.fits' } }]);
  });

  it('are not those of the whole disk: a link to a folder around the session is left alone, and reported', () => {
    const around = tempFolder();
    const folder = join(around, 'session');
    writeFiles(around, new Map(['session/frames/1.fits', 'other/2.fits'].map((path) => [path, 'x'])));
    symlinkSync(around, join(folder, 'frames', 'up'));
    symlinkSync(parse(around).root, join(folder, 'frames', 'disk'));
    symlinkSync('..', join(folder, 'frames', 'own'));
    const { files, warnings } = listSessionFiles(folder);
    expect(files.map(({ path }) => path)).toEqual(['frames/1.fits']);
    expect(warnings.map(({ message }) => message)).toEqual(
      ['disk', 'up'].map(
        (name) =>
          `the link frames/${name} leads to a folder that contains the session folder itself, and was not followed`,
      ),
    );
  });
});
