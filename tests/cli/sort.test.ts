import { cpSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { nightledgerAt, nightledgerIn } from '../support/command-line.js';
import { sampleFolder } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

it('nightledger sort builds a tree, twice the same, and none among the frames', async () => {
  const root = tempFolder();
  const session = join(root, 'night');
  cpSync(sampleFolder('headers-only'), session, { recursive: true });
  const tree = join(root, 'tree');
  const sort = (...more: string[]) => nightledgerIn(root, 'sort', session, '--into', tree, '--stars', 'off', ...more);

  const dry = await sort('--dry-run');
  expect(dry.status).toBe(0);
  expect(dry.stdout).toContain('M-33/L/heron/');
  expect(existsSync(tree)).toBe(false);
  const narrow = await nightledgerAt({ columns: 44 }, root, 'sort', session, '--into', tree, '--dry-run', '-q');
  for (const line of narrow.stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(44);
  expect(narrow.stdout.replace(/\s+/g, ' ')).toBe(dry.stdout.replace(/\s+/g, ' '));

  const first = await sort();
  // The sample has neither darks nor flats; nothing else is wrong with it.
  const said = first.stderr.split('\n').filter((line) => line !== '');
  expect(said.filter((line) => !/: no (?:darks of|flats through) .+ frames of (?:heron|wren)$/.test(line))).toEqual([]);
  expect(said).toContain('nightledger: 2026-11-09: no flats through L for 36 frames of heron');
  const flatless = said.filter((line) => line.includes('no flats')).map((line) => line.split(' ').at(-1));
  expect(flatless, 'train by train').toEqual([...flatless].sort());
  expect(new Set(flatless).size).toBe(2);
  expect(first.status).toBe(0);
  const there = readdirSync(join(tree, 'M-33/L/heron'));
  expect(there.length).toBeGreaterThan(0);
  expect((await sort()).stdout).toContain('0 of them new');
  expect(readdirSync(join(tree, 'M-33/L/heron'))).toEqual(there);

  for (const within of ['sorted', 'frames/heron'])
    expect((await nightledgerIn(root, 'sort', session, '--into', join(session, within))).status, within).toBe(2);
  const manifest = readdirSync(tree).find((name) => name.startsWith('sorted-')) ?? '';
  expect(JSON.parse(readFileSync(join(tree, manifest), 'utf8'))).toMatchObject({ complete: true });
});
