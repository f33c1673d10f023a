import { execFileSync, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const isWindows = process.platform === 'win32';
/** Settings for npm only: which certificates to trust (scripts/test.mjs). */
const { CERTIFICATES_OF_NPM, ...OTHERS } = process.env;
const npmEnv = CERTIFICATES_OF_NPM === undefined ? OTHERS : { ...OTHERS, NODE_EXTRA_CA_CERTS: CERTIFICATES_OF_NPM };
const npm = (args: readonly string[], cwd: string) =>
  execFileSync('npm', [...args], {
    cwd,
    encoding: 'utf8',
    env: npmEnv,
    shell: isWindows,
    stdio: ['ignore', 'pipe', 'pipe'],
  });

/** The canvas and its prebuilt parts for this machine: a fence against a library that slips in. */
const MAX_CANVAS_PACKAGES = 4;

describe('the packed program, installed into an empty place', () => {
  const place = mkdtempSync(join(tmpdir(), 'nightledger-pack-'));
  let program: string;
  let installed: string;
  let contents: string[];
  let installedMs: number;

  beforeAll(() => {
    // `set-up.mjs` has built dist already: packing must not build again while other tests read it.
    const [packed] = JSON.parse(npm(['pack', '--json', '--ignore-scripts', '--pack-destination', place], ROOT)) as [
      { filename: string; files: { path: string }[] },
    ];
    contents = packed.files.map((f) => f.path);
    mkdirSync(join(place, 'prefix'));
    const begin = performance.now();
    npm(
      [
        'install',
        '--global',
        '--prefix',
        join(place, 'prefix'),
        '--prefer-offline',
        '--no-audit',
        '--no-fund',
        join(place, packed.filename),
      ],
      place,
    );
    installedMs = performance.now() - begin;
    installed = join(place, isWindows ? 'prefix/node_modules' : 'prefix/lib/node_modules', 'nightledger');
    program = join(place, isWindows ? 'prefix/nightledger.cmd' : 'prefix/bin/nightledger');
  });

  afterAll(() => rmSync(place, { recursive: true, force: true }));

  const run = (args: readonly string[]) =>
    spawnSync(program, [...args], { cwd: place, encoding: 'utf8', shell: isWindows });

  test('holds the program, its documents, fonts, licences, schema and types, and nothing else', () => {
    const expected = ['README.md', 'CHANGELOG.md', 'LICENSE', 'dist/LICENCES.md', 'schema/night-1.schema.json'];
    const pages = readdirSync(join(ROOT, 'docs'), { withFileTypes: true }).filter((entry) => entry.isFile());
    const docs = pages.map(({ name }) => `docs/${name}`);
    expect(contents).toEqual(expect.arrayContaining([...expected, ...docs, 'dist/cli.js']));
    for (const font of ['source-sans-3', 'source-serif-4']) {
      expect(contents).toContain(`dist/fonts/${font}/LICENSE`);
      expect(contents.filter((path) => path.startsWith(`dist/fonts/${font}/files/`)).length).toBeGreaterThan(0);
    }
    const top = new Set(contents.map((path) => path.split('/')[0]));
    expect([...top].sort()).toEqual(
      ['CHANGELOG.md', 'LICENSE', 'README.md', 'dist', 'docs', 'package.json', 'schema', 'templates'].sort(),
    );
    expect(contents.filter((path) => /\.test\.|\.map$|(?<!\.d)\.ts$/.test(path))).toEqual([]);
  });

  test('says its version', () => {
    expect(run(['--version']).stdout.trim()).toBe(
      (JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string }).version,
    );
  });

  test('brings no library but the prebuilt canvas', () => {
    const scopes = readdirSync(join(installed, 'node_modules')).filter((name) => !name.startsWith('.'));
    expect(scopes).toEqual(['@napi-rs']);
    expect(readdirSync(join(installed, 'node_modules/@napi-rs')).length).toBeLessThanOrEqual(MAX_CANVAS_PACKAGES);
  });

  describe('in a program of somebody else', () => {
    let consumer: string;

    beforeAll(() => {
      consumer = join(place, 'consumer');
      mkdirSync(join(consumer, 'node_modules'), { recursive: true });
      symlinkSync(installed, join(consumer, 'node_modules/nightledger'), 'junction');
      writeFileSync(join(consumer, 'package.json'), '{ "type": "module" }');
    });

    /** What the compiler says of one file: nothing, where all is well. */
    const compiled = (file: string, text: string, options: Record<string, unknown>) => {
      writeFileSync(join(consumer, file), text);
      const compilerOptions = { module: 'NodeNext', target: 'ES2022', strict: true, noEmit: true, ...options };
      writeFileSync(join(consumer, 'tsconfig.json'), JSON.stringify({ compilerOptions, files: [file] }));
      const tsc = join(ROOT, 'node_modules/typescript/bin/tsc');
      return spawnSync(process.execPath, [tsc, '-p', consumer, '--singleThreaded'], { cwd: consumer, encoding: 'utf8' })
        .stdout;
    };

    test('has types of record and archive, without any library of ours', () => {
      const text = `
        import type { FrameRecord, NightRecord } from 'nightledger/record';
        import { readRecord, SCHEMA_ID } from 'nightledger/record';
        import { readArchive, type NightSummary } from 'nightledger/archive';
        const verdicts: FrameRecord['verdict'][] = ['kept', 'doubtful', 'lost'];
        // @ts-expect-error: there is no fourth verdict
        verdicts.push('perhaps');
        const schema: 'nightledger/night/1' = SCHEMA_ID;
        const reading = readRecord('{}');
        // @ts-expect-error: a reading may have failed
        reading.record;
        const total = (night: NightRecord): number => night.frames.reduce((sum, frame) => sum + frame.seconds, 0);
        export const seconds: number | string = reading.ok ? total(reading.record) : reading.why;
        export const nights: Promise<readonly NightSummary[]> = readArchive('.').then((archive) => archive.nights);
        export { schema };
      `;
      expect(compiled('consumer.ts', text, { skipLibCheck: false, types: [] })).toBe('');
    });

    test('is imported, reads a record and sums up an archive', () => {
      const archive = join(ROOT, 'sample-sessions/autumn-archive');
      const copy = join(consumer, 'archive');
      cpSync(archive, copy, { recursive: true });
      const text = `
        import { readFileSync, readdirSync } from 'node:fs';
        import { readRecord } from 'nightledger/record';
        import { readArchive } from 'nightledger/archive';
        const [file] = readdirSync(${JSON.stringify(copy)}).filter((name) => /^\\d{4}-/.test(name));
        const reading = readRecord(readFileSync(${JSON.stringify(`${copy}/`)} + file, 'utf8'));
        const { nights, warnings } = await readArchive(${JSON.stringify(copy)});
        console.log(JSON.stringify([reading.ok && reading.record.night, nights.length, nights[0].date, warnings]));
      `;
      writeFileSync(join(consumer, 'consumer.mjs'), text);
      const { stdout, stderr } = spawnSync(process.execPath, ['consumer.mjs'], { cwd: consumer, encoding: 'utf8' });
      expect(stderr).toBe('');
      const files = readdirSync(archive)
        .filter((name) => /^\d{4}-/.test(name))
        .sort();
      const first = files[0]?.slice(0, 10);
      expect(JSON.parse(stdout)).toEqual([first, files.length, first, []]);
    });
  });

  test('reports a night of headers alone with one command and no rig file', () => {
    const frames = join(ROOT, 'sample-sessions/headers-only/frames');
    const begin = performance.now();
    const made = run(['report', frames, '--out', join(place, 'report')]);
    const [install, report] = [installedMs, performance.now() - begin].map((ms) => (ms / 1000).toFixed(1));
    // Printed and not judged: a busy machine is no fault of the program's.
    console.info(`newcomer's clock (goal: under a minute): install ${install} s, first report with PDF ${report} s`);
    expect(made.stderr).not.toMatch(/Error|Cannot find/);
    expect(made.status).toBe(0);
    expect(existsSync(join(place, 'report/night.json'))).toBe(true);
    expect(existsSync(join(frames, 'rig.yaml'))).toBe(false);
    expect(readFileSync(join(place, 'report/report.html'), 'utf8')).toContain('<svg');
    // Where no browser is found the program says so; else its own libraries must suffice for the PDF.
    if (!made.stderr.includes('no browser was found')) expect(existsSync(join(place, 'report/report.pdf'))).toBe(true);
  });
});
