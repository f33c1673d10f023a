import { mkdtempSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { userRigFolder } from '../../src/cli/user-folder.js';
import { gatherSession } from '../../src/gather/index.js';
import { readNights } from '../../src/pipeline.js';
import { viewContext } from '../../src/report/html/view/context.js';
import { frontView } from '../../src/report/html/view/front.js';
import { writeFiles } from '../support/generator/samples.js';
import { TWIN_NIGHT } from '../support/generator/scenarios.js';
import { writeSession } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';

const folder = mkdtempSync(join(tmpdir(), 'nightledger-user-rigs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const night = { ...TWIN_NIGHT, end: '2026-10-14T20:30:00.000Z', clouds: [], starLost: [], flipAt: undefined };
const { files } = writeSession({ ...night, guidingEverySeconds: 0 });
const rig = String(files.get('rig.yaml')).replace(/^guiding:.*$/m, '');
const rigs = join(folder, 'rigs');
mkdirSync(rigs);
writeFileSync(join(rigs, 'hill.yaml'), rig);
writeFileSync(join(rigs, 'elsewhere.yaml'), rig.replace('latitude: 40.42', 'latitude: -30'));
writeFileSync(join(rigs, 'longer.yaml'), rig.replace('focalLength: 600', 'focalLength: 1200'));
writeFileSync(join(rigs, 'broken.yaml'), 'trains: 7');

function session(name: string, content: ReadonlyMap<string, Buffer | string>) {
  const path = join(folder, name);
  writeFiles(path, new Map(content));
  return gatherSession(path, { nowMs: TEST_NOW_MS, userRigs: rigs });
}

describe('the user’s rigs', () => {
  it('serve a session without one by site and optics, and the report says which', async () => {
    const without = new Map([...files].filter(([path]) => path !== 'rig.yaml'));
    const { rig: taken, warnings, events } = await session('without', without);
    expect(taken.site?.name).toBe('Cierzo Hill');
    expect(events.length).toBeGreaterThan(0);
    expect(warnings.find((w) => w.code === 'user-rig')?.message).toContain('hill.yaml');
    expect(warnings.find((w) => w.code === 'user-rig-unusable')?.message).toContain('broken.yaml');
  });

  it('are named on the first screen', async () => {
    const path = join(folder, 'first-screen');
    writeFiles(path, new Map([...files].filter(([name]) => name !== 'rig.yaml')));
    const [night] = await readNights(path, { nowMs: TEST_NOW_MS, userRigs: rigs });
    if (!night) throw new Error('no night was read');
    expect(frontView(viewContext(night)).notices.join(' ')).toMatch(/hill\.yaml of your own rigs fits its headers/);
  });

  it('have their own keywords read, though nothing else would tell the frames', async () => {
    const other = join(folder, 'rigs-with-keywords');
    mkdirSync(other);
    writeFileSync(join(other, 'hill.yaml'), `${rig}\nkeywords: { filter: [MYGLASS], target: [MYFIELD] }\n`);
    const renamed = [...files].flatMap(([path, content]): [string, Buffer | string][] => {
      if (path === 'rig.yaml') return [];
      if (!path.startsWith('frames/')) return [[path, content]];
      const text = (content as Buffer)
        .toString('latin1')
        .replace('FILTER  =', 'MYGLASS =')
        .replace('OBJECT  =', 'MYFIELD =');
      return [[path, Buffer.from(text, 'latin1')]];
    });
    const path = join(folder, 'renamed');
    writeFiles(path, new Map(renamed));
    const { frames, warnings } = await gatherSession(path, { nowMs: TEST_NOW_MS, userRigs: other });
    expect(warnings.map((w) => w.code)).toContain('user-rig');
    const lights = frames.filter((f) => f.kind === 'light');
    expect(lights.length).toBeGreaterThan(0);
    expect(lights.every((f) => f.filter !== undefined && f.target !== undefined)).toBe(true);
  });

  it('never count where the session has its own', async () => {
    const { warnings } = await session('with', new Map([...files, ['rig.yaml', rig]]));
    expect(warnings.map((w) => w.code).filter((c) => c.startsWith('user-rig'))).toEqual([]);
  });

  it('live where the surroundings say', () => {
    expect(userRigFolder({ XDG_CONFIG_HOME: '/c', HOME: '/h' })).toBe(join('/c', 'nightledger', 'rigs'));
    expect(userRigFolder({ APPDATA: '/data' })).toBe(join('/data', 'nightledger', 'rigs'));
    expect(userRigFolder({ APPDATA: 'data' })).toBeUndefined();
    expect(userRigFolder({ HOME: '/h' })).toBe(join('/h', '.config', 'nightledger', 'rigs'));
    expect(userRigFolder({})).toBeUndefined();
  });
});
