/** A session as a Windows computer leaves it is the same night. */
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readNights } from '../../src/pipeline.js';
import { toRecord, type NightRecord } from '../../src/record/index.js';
import { TEST_NOW_MS } from '../support/sample-night.js';

const SAMPLE = fileURLToPath(new URL('../../sample-sessions/mixed-dialects', import.meta.url));

describe('a session with backslashes, drive letters, shares, line ends and capitals of Windows', () => {
  const place = mkdtempSync(join(tmpdir(), 'nightledger-windows-'));
  const session = join(place, 'session');
  const rewrite = (file: string, change: (text: string) => string): void => {
    const path = join(session, file);
    const changed = change(readFileSync(path, 'utf8'));
    writeFileSync(path, changed.replace(/\r?\n/g, '\r\n'));
  };
  const record = async (folder: string) => {
    const [night, ...others] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
    if (!night || others.length > 0) throw new Error('one night was to be read');
    return toRecord(night, 'test', false);
  };

  beforeAll(() => {
    cpSync(SAMPLE, session, { recursive: true });
    for (const file of readdirSync(join(session, 'dialects'))) rewrite(`dialects/${file}`, (text) => text);
    rewrite('rig.yaml', (text) =>
      text
        .replace(/"((?:frames|logs)\/[^"]+)"/g, (_, path: string) => `'.\\${path.replaceAll('/', '\\').toUpperCase()}'`)
        .replaceAll('dialects/', 'dialects\\'),
    );
    rewrite('logs/hut-one.txt', (text) =>
      text.replace(/kept as (\S+)/g, (_, name: string) => `kept as D:\\NIGHT\\${name.toUpperCase()}`),
    );
    rewrite('logs/hut-two.txt', (text) =>
      text.replace(/lies in (\S+?)\.fits/g, (_, name: string) => `lies in \\\\hut\\share\\frames\\${name}.FITS`),
    );
    rewrite('logs/star-walk.csv', (text) => text);
  });

  afterAll(() => rmSync(place, { recursive: true, force: true }));

  it('has the totals, accounts, dithers and verdicts of the same night elsewhere', async () => {
    expect(readFileSync(join(session, 'logs/hut-one.txt'), 'latin1')).toContain('D:\\NIGHT\\HERON_IC1396_HA_0001.FITS');
    expect(readFileSync(join(session, 'logs/hut-two.txt'), 'latin1')).toMatch(
      /lies in \\\\hut\\share\\frames\\wren_\S+\.FITS/,
    );
    const [here, there] = [await record(SAMPLE), await record(session)];
    for (const key of ['night', 'window', 'trains', 'totals', 'ledger', 'dithers', 'pairs'] as const)
      expect(there[key], key).toEqual(here[key]);
    const codes = ({ warnings }: NightRecord) => warnings.map(({ code }) => code).sort();
    expect(codes(there)).toEqual(codes(here));
    const verdicts = ({ frames }: NightRecord) => frames.map(({ file, verdict }) => `${file} ${verdict}`);
    expect(verdicts(there)).toEqual(verdicts(here));
  });
});
