import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { Edition, OutputRefused, type EditionKind } from '../../../src/report/edition/index.js';
import { isEditionPath, MANIFEST, readManifest } from '../../../src/report/edition/manifest.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

type Files = Readonly<Record<string, string>>;

async function write(folder: string, files: Files, options: { kind?: EditionKind; force?: boolean } = {}) {
  const edition = await Edition.open(folder, { kind: 'night', of: '2026-10-14', ...options });
  try {
    edition.claim(Object.keys(files));
    for (const [path, content] of Object.entries(files)) await edition.add(path, content);
    return await edition.commit();
  } catch (error) {
    edition.discard();
    throw error;
  }
}

/** Everything in a folder but the manifest, by path. */
function contentOf(folder: string): Files {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (path) => path !== MANIFEST && !lstatSync(join(folder, path)).isDirectory(),
  );
  return Object.fromEntries(paths.map((path) => [path, readFileSync(join(folder, path), 'utf8')]));
}

const PRIVATE: Files = { 'report.html': 'at home', 'report.pdf': 'at home', 'frames/a.kept.txt': 'at home' };

describe('an edition', () => {
  it('makes the folder, any files in it, and a manifest with their hashes', async () => {
    const folder = join(tempFolder(), 'deep/inside');
    expect(await write(folder, PRIVATE)).toEqual(Object.keys(PRIVATE).map((path) => join(folder, path)));
    expect(contentOf(folder)).toEqual(PRIVATE);
    expect([...(readManifest(folder)?.files ?? [])]).toHaveLength(3);
  });

  it('names its files in the order in which they were announced', async () => {
    const folder = tempFolder();
    const edition = await Edition.open(folder, { kind: 'night', of: '2026-10-14' });
    edition.announce('report.html');
    await edition.add('frames.csv', 'made first');
    await edition.add('report.html', 'made last');
    expect(await edition.commit()).toEqual(['report.html', 'frames.csv'].map((path) => join(folder, path)));
    expect(contentOf(folder)).toEqual({ 'report.html': 'made last', 'frames.csv': 'made first' });
  });

  it('takes the place of the one before as a whole: what it does not hold is gone', async () => {
    const folder = tempFolder();
    await write(folder, PRIVATE);
    await write(folder, { 'report.html': 'to share' });
    expect(contentOf(folder)).toEqual({ 'report.html': 'to share' });
    expect(existsSync(join(folder, 'frames'))).toBe(false);
  });

  it('never touches files of others, and says which stand in its way', async () => {
    const folder = tempFolder();
    const foreign: Files = { 'summary.md': 'my thesis', 'frames.csv': 'my data', 'notes.txt': 'mine' };
    for (const [path, text] of Object.entries(foreign)) writeFileSync(join(folder, path), text);
    const attempt = write(folder, { 'report.html': 'new', 'summary.md': 'new', 'frames.csv': 'new' });
    await expect(attempt).rejects.toThrow(OutputRefused);
    await expect(attempt).rejects.toThrow(/holds summary\.md, frames\.csv, which nightledger did not make.*--force/);
    expect(contentOf(folder)).toEqual(foreign);
    await write(folder, { 'report.html': 'new' });
    await write(folder, { 'report.html': 'newer', 'summary.md': 'new' }, { force: true });
    expect(contentOf(folder)).toEqual({ ...foreign, 'report.html': 'newer', 'summary.md': 'new' });
  });

  it('does not replace one of another kind unasked', async () => {
    const folder = tempFolder();
    await write(folder, PRIVATE);
    await expect(write(folder, { 'progress.html': 'x' }, { kind: 'progress' })).rejects.toThrow(/holds the report of/);
    expect(contentOf(folder)).toEqual(PRIVATE);
  });

  it('leaves the folder as it was when it is given up, or cannot be written', async () => {
    const folder = tempFolder();
    await write(folder, PRIVATE);
    mkdirSync(join(folder, 'card.png'));
    await expect(write(folder, { 'report.html': 'new', 'card.png': 'new' }, { force: true })).rejects.toThrow();
    expect(contentOf(folder)).toEqual(PRIVATE);
    const fresh = join(folder, 'fresh');
    (await Edition.open(fresh, { kind: 'night', of: '' })).discard();
    expect(existsSync(fresh)).toBe(false);
  });

  it('writes through no link that leads out of the folder', async () => {
    const [folder, frames] = [tempFolder(), tempFolder()];
    writeFileSync(join(frames, 'a.kept.txt'), 'mine');
    symlinkSync(frames, join(folder, 'frames'));
    await expect(write(folder, { 'frames/a.kept.txt': 'new' }, { force: true })).rejects.toThrow(OutputRefused);
    writeFileSync(
      join(folder, MANIFEST),
      JSON.stringify({ schema: 'nightledger/edition/1', kind: 'night', of: '', files: { 'frames/a.kept.txt': 'x' } }),
    );
    await write(folder, { 'report.html': 'new' });
    expect(readFileSync(join(frames, 'a.kept.txt'), 'utf8')).toBe('mine');
  });

  it.each([
    ['mine.txt'],
    ['frames/mine.txt'],
    ['../escaped.txt'],
    ['/etc/passwd.txt'],
    ['a/../../b.txt'],
    ['C:\\x.txt'],
    ['.hidden.json'],
    ['report.exe'],
    ['a\nb.txt'],
    ['a./b.txt'],
    [''],
  ])('knows %j for no path of its own', (path) => {
    expect(isEditionPath(path)).toBe(false);
  });

  it('finishes the swap of a run that was killed in the middle of it', async () => {
    const folder = tempFolder();
    await write(folder, PRIVATE);
    // As a kill between two renames leaves it: old files gone, one new file in place, the others waiting.
    const pid = spawnSync(process.execPath, ['-e', '']).pid;
    const staging = join(folder, `.nightledger-${pid}-abcdef`);
    mkdirSync(join(staging, 'new'), { recursive: true });
    mkdirSync(join(staging, 'old'));
    const coming = ['report.html', 'night.json', MANIFEST];
    writeFileSync(
      join(staging, 'swap.json'),
      JSON.stringify({ leaving: [...Object.keys(PRIVATE), ...coming], coming }),
    );
    writeFileSync(join(folder, 'report.html'), 'shared');
    writeFileSync(join(staging, 'new/night.json'), 'shared');
    writeFileSync(
      join(staging, 'new', MANIFEST),
      JSON.stringify({
        schema: 'nightledger/edition/1',
        kind: 'night',
        of: 'the other',
        files: { 'report.html': '', 'night.json': '' },
      }),
    );
    (await Edition.open(folder, { kind: 'night', of: '' })).discard();
    expect(contentOf(folder)).toEqual({ 'report.html': 'shared', 'night.json': 'shared' });
    expect(readManifest(folder)?.of).toBe('the other');
  });
});
