import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { archivedNights } from '../../../src/archive.js';
import { mergeSessions } from '../../../src/merge-sessions.js';
import { COUNTINGS, type Counting } from '../../../src/model/index.js';
import { keepSums, keptSums } from '../../../src/record/archive/kept-sums.js';
import type { KeptSums } from '../../../src/record/archive/sums-shape.js';
import { addSession } from '../../../src/record/index.js';
import { writeAtomically } from '../../../src/report/index.js';
import { frameOf, sessionOf } from '../../support/records.js';
import { sampleFolder } from '../../support/sample-night.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

const isRecord = (name: string): boolean => /^\d.*\.json$/.test(name);
const sumsOf = (archive: string, file: string): string => join(archive, '.index', 'sums', file);

/** The sample archive, with the sums of its records beside them. */
const archive = mkdtempSync(join(tmpdir(), 'nightledger-sums-'));
const files = readdirSync(sampleFolder('autumn-archive')).filter(isRecord);

beforeAll(async () => {
  cpSync(sampleFolder('autumn-archive'), archive, { recursive: true });
  for (const file of files) await keepSums(archive, file, readFileSync(join(archive, file), 'utf8'), writeAtomically);
});
afterAll(() => rmSync(archive, { recursive: true }));

const original = (file: string): string => readFileSync(sumsOf(archive, file), 'utf8');

/** Whether what stands beside a record is taken for what it comes to. */
function isTaken(file: string, text: string, counting: Counting = 'clock'): boolean {
  const copy = tempFolder();
  cpSync(archive, copy, { recursive: true });
  writeFileSync(sumsOf(copy, file), text);
  return keptSums(copy, file, counting) !== null;
}

describe('the sums kept beside records', () => {
  it.each(COUNTINGS)('say what the records say, counted by %s', async (counting) => {
    expect(files.map((file) => keptSums(archive, file, counting)?.night)).toEqual(files.map((f) => f.slice(0, 10)));
    const kept = await archivedNights(archive, { counting });
    expect(JSON.stringify(kept)).toBe(
      JSON.stringify(await archivedNights(sampleFolder('autumn-archive'), { counting })),
    );
  });

  // Whoever changes what the same records come to raises SUMS_FORMAT before the new digest is put here.
  it('are of the format that they name', () => {
    const lines = files.map((file) => original(file).split('\n'));
    const digest = (value: unknown): string =>
      createHash('sha256').update(JSON.stringify(value)).digest('hex').slice(0, 16);
    const sums = lines.map(([first = '']) => JSON.parse(first) as KeptSums);
    expect({
      format: sums[0]?.format,
      records: digest(sums.map(({ record }) => record)),
      sums: digest(sums.map(({ begins, night }, i) => [begins, night, lines[i]?.[1]])),
    }).toEqual({ format: 'nightledger/sums/2', records: '517e9684276f4826', sums: '3d351618a85f34fc' });
  });

  it('are written with every record that is added, merged ones too', async () => {
    const own = tempFolder();
    const add = (session: string, from: number) =>
      addSession(
        own,
        sessionOf('2026-10-14', session, [frameOf('2026-10-14', from), frameOf('2026-10-14', from + 1)]),
        writeAtomically,
        mergeSessions,
      );
    const framesKept = (): unknown => keptSums(own, '2026-10-14.json', 'clock')?.summed.night.totals[0]?.frames.kept;
    await add('a', 0);
    expect(framesKept()).toBe(2);
    await add('b', 2);
    expect(framesKept()).toBe(4);
  });

  it('are read in the records’ stead, as long as these are the same to the byte', async () => {
    const own = tempFolder();
    cpSync(archive, own, { recursive: true });
    // What lies beside a file that is no record is read, for it might share its frames.
    const [, , file = ''] = files;
    writeFileSync(sumsOf(own, file), original(file).replaceAll('"OIII"', '"of the sums"'));
    const isMarked = async (): Promise<boolean> =>
      (await archivedNights(own)).nights.some(({ totals }) => totals.some(({ filter }) => filter === 'of the sums'));
    expect(await isMarked()).toBe(true);
    const record = readFileSync(join(own, file), 'utf8');
    writeFileSync(join(own, file), record.replace('"verdict":"kept"', '"verdict":"lost"'));
    expect(await isMarked()).toBe(false);
    writeFileSync(join(own, file), record);
    expect(await isMarked()).toBe(true);
    rmSync(join(own, '.index'), { recursive: true });
    expect(await isMarked()).toBe(false);
  });

  it.each([
    ['no JSON', () => '{'],
    ['another format', (text: string) => text.replace('sums/2', 'sums/3')],
    ['another record’s', (text: string) => text.replaceAll('2026-09-08.json', '2026-09-12.json')],
    ['text for a number', (text: string) => text.replace(/"kept":[\d.]+/, '"kept":"<b>"')],
    ['a number beyond all', (text: string) => text.replace(/"seconds":\d+/, '"seconds":1e999')],
    ['a span that ends before it begins', (text: string) => text.replace(/"endMs":\d+/, '"endMs":0')],
    ['a text without end', (text: string) => text.replace('"Ha"', `"${'H'.repeat(100_000)}"`)],
    ['a place beyond the Earth', (text: string) => text.replace(/"latitudeDeg":[\d.]+/, '"latitudeDeg":400')],
  ])('are no sums with %s', (_, spoil) => {
    const [file = ''] = files;
    const text = original(file);
    expect(isTaken(file, text)).toBe(true);
    expect(spoil(text)).not.toBe(text);
    expect(isTaken(file, spoil(text))).toBe(false);
  });

  it('are no sums of effective hours where only these are spoilt', () => {
    const [file = ''] = files;
    const [first = '', second = ''] = original(file).split('\n');
    const spoilt = `${first}\n${second.replace('"headersOnly":false', '"headersOnly":0')}\n`;
    expect([isTaken(file, original(file), 'effective'), isTaken(file, spoilt, 'effective')]).toEqual([true, false]);
  });

  it('are done without where they cannot be written', async () => {
    const own = tempFolder();
    const writes: string[] = [];
    const added = await addSession(
      own,
      sessionOf('2026-10-14', 'a', [frameOf('2026-10-14', 0)]),
      async (path, text) => {
        writes.push(path);
        if (path.includes('.index')) throw new Error('disk full');
        writeFileSync(path, text);
      },
      mergeSessions,
    );
    expect([added.state, writes.length, readdirSync(own)]).toEqual(['new', 2, ['2026-10-14.json']]);
  });
});
