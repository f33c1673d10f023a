import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nightledgerIn, type Ran } from '../support/command-line.js';
import { inFull } from '../support/runs.js';
import { sampleFolder } from '../support/sample-night.js';

const folder = mkdtempSync(join(tmpdir(), 'nightledger-plan-'));
const archive = join(folder, 'archive');
const NIGHTS = inFull(7, 5);
const plan = (...args: string[]): Promise<Ran> => nightledgerIn(folder, 'plan', archive, ...args);

beforeAll(() => cpSync(sampleFolder('autumn-archive'), archive, { recursive: true }));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface PlanJson {
  readonly schema: string;
  readonly site: string | null;
  readonly trains: readonly string[];
  readonly assumptions: readonly string[];
  readonly left: readonly unknown[];
  readonly nights: readonly {
    readonly night: string;
    readonly blocks: readonly {
      readonly begin: string;
      readonly target: string;
      readonly trains: readonly { readonly train: string; readonly filter?: string; readonly subSeconds?: number }[];
    }[];
    readonly adds: readonly { readonly target: string; readonly filter: string; readonly lacksHours: number }[];
  }[];
}

describe('nightledger plan', () => {
  it('plans nights of the sample archive one after another: goals are used up, lengths are those of its frames', async () => {
    const run = await plan('--night', '2026-11-25', '--nights', `${NIGHTS}`, '--json');
    expect(run.stderr).toBe('');
    const { schema, nights } = JSON.parse(run.stdout) as PlanJson;
    expect(schema).toBe('nightledger/plan/1');
    expect(nights).toHaveLength(NIGHTS);
    const blocks = nights.flatMap((night) => night.blocks);
    expect(blocks.length).toBeGreaterThan(inFull(10, 7));
    // The sample's wren takes Ha in 360 s more often than in 420 s or 300 s; heron in 420 s; L in 300 s on both.
    const lengths = new Map(
      blocks.flatMap((b) => b.trains.map((t) => [`${t.train} ${t.filter ?? ''}`, t.subSeconds] as const)),
    );
    expect(lengths.get('wren Ha') ?? 360).toBe(360);
    expect(lengths.get('heron Ha') ?? 420).toBe(420);
    expect(lengths.get('wren L') ?? 300).toBe(300);
    const last = new Map<string, number>();
    for (const { adds } of nights)
      for (const { target, filter, lacksHours } of adds) {
        const key = `${target} ${filter}`;
        expect(lacksHours).toBeLessThanOrEqual(last.get(key) ?? Infinity);
        last.set(key, lacksHours);
      }
  });

  it('says that there are no goals where nobody wrote any', async () => {
    const bare = join(folder, 'bare');
    const session = sampleFolder('headers-only');
    expect((await nightledgerIn(folder, 'archive', 'add', session, '--archive', bare, '-q')).status).toBe(0);
    const run = await nightledgerIn(folder, 'plan', bare, '--night', '2026-12-01', '--nights', '1');
    expect(run.status).toBe(0);
    expect(run.stderr).toContain('no target of the archive has a goal');
  });

  it('leaves the site and times of day out of a shared plan', async () => {
    const { stdout } = await plan('--night', '2026-12-01', '--nights', '1', '--share', '--json');
    expect(stdout).not.toMatch(/Cierzo|Madrid|T\d\d:\d\d/);
    expect((JSON.parse(stdout) as PlanJson).site).toBeNull();
    expect((await plan('--night', '2026-12-01', '--nights', '1', '--share')).stdout).not.toMatch(
      /Cierzo|Madrid|altitude \d|meridian/,
    );
  });

  it('writes a page, JSON and text, with the caution where the mount moves', async () => {
    const out = join(folder, 'out');
    const { stdout } = await plan('--night', '2026-12-01', '--nights', '1', '--out', out, '--no-pdf');
    expect(stdout.trim().split('\n').sort()).toEqual(
      ['plan.html', 'plan.json', 'plan.txt'].map((file) => join(out, file)),
    );
    expect(readFileSync(join(out, 'plan.html'), 'utf8')).toContain('What the night adds');
    expect(existsSync(join(out, 'plan.pdf'))).toBe(false);
    const text = readFileSync(join(out, 'plan.txt'), 'utf8');
    expect(text).toMatch(/^Plan for 1 Dec 2026, Cierzo Hill; times in Europe\/Madrid \(UTC\+1\)\n/);
    expect(text).toMatch(/heron: \w+, \d+ × \d+ s/);
    // What moves the mount is tried with care.
    expect(text).toContain('The makers’ instructions');
  });

  it('goes where goals.yaml puts the priority, and plans the panels of a mosaic', async () => {
    const own = join(folder, 'own');
    cpSync(archive, own, { recursive: true });
    writeFileSync(
      join(own, 'goals.yaml'),
      `targets:
  - name: M 33
    goals: { Ha: 40h }
  - name: Cygnus wall
    priority: 5
    goals: { Ha: 3h }
    panels:
      - { name: Wall 1, ra: "05:16:00", dec: "+34:30:00" }
      - { name: Wall 2, ra: "05:20:00", dec: "+34:30:00" }
  - name: Lost
    goals: { Ha: 4h }
`,
    );
    const run = await nightledgerIn(folder, 'plan', own, '--night', '2026-12-10', '--nights', '1', '--json');
    const { nights, left } = JSON.parse(run.stdout) as PlanJson;
    const adds = nights[0]?.adds ?? [];
    expect(left).toContainEqual({ target: 'Lost', filter: 'Ha', train: null, lacksHours: 4, why: 'no-place' });
    const wall = adds.filter(({ target }) => target.startsWith('Wall'));
    expect(wall.map(({ target }) => target)).toEqual(['Wall 1', 'Wall 2']);
    for (const { lacksHours } of wall) expect(lacksHours).toBeLessThan(0.25);
  });

  it('plans the trains of a rig file: one that is left out, and one that no night has seen', async () => {
    const rig = join(folder, 'rig.yaml');
    writeFileSync(
      rig,
      `trains:
  - { id: heron, frames: [ "heron/**" ] }
  - { id: crane, telescope: { aperture: 200, focalLength: 1000 }, camera: { pixelSize: 3.76 }, frames: [ "crane/**" ],
      filters: { OIII: {} } }
`,
    );
    const run = await plan('--night', '2026-11-28', '--nights', '1', '--rig', rig, '--json');
    expect(run.stderr).toBe('');
    const { nights, trains, assumptions } = JSON.parse(run.stdout) as PlanJson;
    expect(trains).toEqual(['heron', 'crane']);
    expect(assumptions.join()).toMatch(/of the rig file: heron and crane\. crane is new.*Not wren/);
    const crane = nights[0]?.blocks.flatMap((block) =>
      block.trains.filter(({ filter, train }) => filter && train === 'crane'),
    );
    expect(new Set(crane?.map(({ filter }) => filter))).toEqual(new Set(['OIII']));
    // As long as the others take it.
    expect(crane?.[0]?.subSeconds).toBe(420);
  });

  it.each([
    [['--night', 'tomorrow'], '--night needs a date'],
    [['--nights', '0'], '--nights needs a whole number'],
    [['--rig', 'nowhere.yaml'], '--rig nowhere.yaml cannot be read'],
    [['--rig', 'a.yaml', '--trains', 'wren'], "option '--rig <file>' cannot be used with option '--trains"],
    [['--aperture', 'heron'], '--aperture needs a train and millimetres'],
  ])('refuses %j', async (args, message) => {
    const { status, stderr } = await plan(...args);
    expect(status).toBe(2);
    expect(stderr).toContain(message);
  });
});
