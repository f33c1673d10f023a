import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mergeSessions } from '../../../src/merge-sessions.js';
import { addSession, readRecord, recordText, type NightRecord, type SessionRecord } from '../../../src/record/index.js';
import { writeAtomically } from '../../../src/report/index.js';
import { CIERZO, frameOf, sessionOf } from '../../support/records.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

const NIGHT = '2026-10-14';
const frames = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => frameOf(NIGHT, from + i));
const add = (archive: string, record: SessionRecord) => addSession(archive, record, writeAtomically, mergeSessions);

function stored(archive: string, file = `${NIGHT}.json`): NightRecord {
  const reading = readRecord(readFileSync(join(archive, file), 'utf8'));
  if (!reading.ok) throw new Error(reading.why);
  return reading.record;
}

describe('adding a session to the archive', () => {
  it('writes one plain JSON file, named by the night, a line for each frame', async () => {
    const archive = tempFolder();
    const record = sessionOf(NIGHT, 'a', frames(0, 3));
    expect(await add(archive, record)).toMatchObject({ state: 'new', file: `${NIGHT}.json`, warnings: [] });
    expect(readdirSync(archive)).toEqual(['.index', `${NIGHT}.json`]);
    expect(stored(archive)).toEqual(JSON.parse(JSON.stringify(record)));
    expect(
      readFileSync(join(archive, `${NIGHT}.json`), 'utf8')
        .split('\n')
        .filter((line) => line.includes('"identity"')),
    ).toHaveLength(3);
  });

  it('changes nothing when the same session comes again', async () => {
    const archive = tempFolder();
    const record = sessionOf(NIGHT, 'a', frames(0, 3));
    await add(archive, record);
    const before = readFileSync(join(archive, `${NIGHT}.json`));
    expect(await add(archive, JSON.parse(JSON.stringify(record)) as SessionRecord)).toMatchObject({
      state: 'unchanged',
    });
    expect(readFileSync(join(archive, `${NIGHT}.json`)).equals(before)).toBe(true);
  });

  it('puts a session that is judged again in its old place, and says when frames have gone', async () => {
    const archive = tempFolder();
    await add(archive, sessionOf(NIGHT, 'a', frames(0, 5)));
    const again = await add(
      archive,
      sessionOf(
        NIGHT,
        'a',
        frames(1, 5).map((f) => ({ ...f, verdict: 'doubtful' as const })),
      ),
    );
    expect(again.state).toBe('replaced');
    expect(again.warnings.map((w) => [w.code, w.count])).toEqual([['frames-gone', 1]]);
    expect(stored(archive).frames.map((f) => f.verdict)).toEqual(Array(4).fill('doubtful'));
    expect(stored(archive).parts).toBeUndefined();
  });

  it('merges another session of the night, and replaces one of the two later without counting anything twice', async () => {
    const archive = tempFolder();
    await add(archive, sessionOf(NIGHT, 'a', frames(0, 10)));
    expect(await add(archive, sessionOf(NIGHT, 'b', frames(5, 15)))).toMatchObject({ state: 'merged' });
    expect(stored(archive).frames).toHaveLength(15);
    expect(await add(archive, sessionOf(NIGHT, 'a', frames(0, 12)))).toMatchObject({ state: 'replaced' });
    expect(stored(archive).frames).toHaveLength(15);
    expect(stored(archive).parts).toHaveLength(2);
    expect(await add(archive, sessionOf(NIGHT, 'b', frames(5, 15)))).toMatchObject({ state: 'unchanged' });
  });

  it('keeps a night at another site apart, under the site’s name', async () => {
    const archive = tempFolder();
    await add(archive, sessionOf(NIGHT, 'a', frames(0, 3)));
    const far = { ...CIERZO, name: 'Isla Ñandú', longitude: -17.9 };
    expect(
      await add(archive, sessionOf(NIGHT, 'b', [frameOf(NIGHT, 0, { identity: 'x' })], { site: far })),
    ).toMatchObject({ state: 'new', file: `${NIGHT}.isla-nandu.json` });
    expect(
      await add(
        archive,
        sessionOf(NIGHT, 'c', [frameOf(NIGHT, 1, { identity: 'y' })], {
          site: { ...far, latitude: far.latitude + 0.02 },
        }),
      ),
    ).toMatchObject({ state: 'merged', file: `${NIGHT}.isla-nandu.json` });
    expect(stored(archive).frames).toHaveLength(3);
  });

  it('takes a record that names no site for one of the site that is there', async () => {
    const archive = tempFolder();
    await add(archive, sessionOf(NIGHT, 'a', frames(0, 3)));
    await add(archive, sessionOf(NIGHT, 'b', frames(3, 4), { site: null }));
    expect(stored(archive)).toMatchObject({ site: { name: 'Cierzo Hill' }, frames: { length: 4 } });
  });

  it('sets a damaged record aside, says so, and never deletes or overwrites it', async () => {
    const archive = tempFolder();
    for (const content of ['{"schema":"nightledger/night/1","nig', 'second wreck of nightledger/night/1']) {
      writeFileSync(join(archive, `${NIGHT}.json`), content);
      const added = await add(archive, sessionOf(NIGHT, 'a', frames(0, 2)));
      expect(added.state).toBe('new');
      expect(added.warnings.map((w) => w.code)).toEqual(['damaged-record']);
      expect(added.warnings[0]?.message).toContain('set aside as');
    }
    expect(readFileSync(join(archive, `${NIGHT}.json.damaged`), 'utf8')).toContain('"nig');
    expect(readFileSync(join(archive, `${NIGHT}.json.damaged-2`), 'utf8')).toBe('second wreck of nightledger/night/1');
    expect(stored(archive).frames).toHaveLength(2);
  });

  it('leaves a newer program’s record alone and writes beside it', async () => {
    const archive = tempFolder();
    const newer = JSON.stringify({ ...sessionOf(NIGHT, 'z', frames(0, 1)), schema: 'nightledger/night/99' });
    writeFileSync(join(archive, `${NIGHT}.json`), newer);
    const added = await add(archive, sessionOf(NIGHT, 'a', frames(0, 2)));
    expect(added.warnings.map((w) => w.code)).toEqual(['newer-record']);
    expect(added.file).not.toBe(`${NIGHT}.json`);
    expect(readFileSync(join(archive, `${NIGHT}.json`), 'utf8')).toBe(newer);
  });

  it('leaves the old record whole when writing fails', async () => {
    const archive = tempFolder();
    await add(archive, sessionOf(NIGHT, 'a', frames(0, 3)));
    const before = readFileSync(join(archive, `${NIGHT}.json`), 'utf8');
    await expect(
      addSession(
        archive,
        sessionOf(NIGHT, 'b', frames(3, 5)),
        () => Promise.reject(new Error('disk full')),
        mergeSessions,
      ),
    ).rejects.toThrow('disk full');
    expect(readFileSync(join(archive, `${NIGHT}.json`), 'utf8')).toBe(before);
    expect(readdirSync(archive)).toEqual(['.index', `${NIGHT}.json`]);
  });

  it('does not mistake a folder or another day for the night', async () => {
    const archive = tempFolder();
    mkdirSync(join(archive, `${NIGHT}.d.json`));
    writeFileSync(join(archive, '2026-10-15.json'), recordText(sessionOf('2026-10-15', 'a', [])));
    const added = await add(archive, sessionOf(NIGHT, 'a', frames(0, 2)));
    expect(added.file).toBe(`${NIGHT}.json`);
    expect(existsSync(join(archive, `${NIGHT}.d.json`))).toBe(true);
  });
});
