/** Ctrl-C while stars are measured: a real signal to a real process. */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { drawQuickly, scatter } from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { inFull } from '../support/runs.js';
import { tempFolder } from '../support/temp-folder.js';

const PROGRAM = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));
const FRAMES = 100;
const BEGIN_MS = Date.parse('2026-10-14T19:30:00Z');
const SIZE = { width: 900, height: 600 };
const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Lights a minute apart, all with the same sky. */
function session(): string {
  const frames = join(folder, 'session');
  mkdirSync(frames);
  const pixels = drawQuickly({
    ...SIZE,
    stars: scatter(seeded(8), SIZE, 60, { from: 8_000, to: 80_000 }),
    shape: { profile: { kind: 'gaussian', fwhm: 3 } },
    background: 500,
    electronsPerAdu: 1,
    readNoise: 3,
    seed: 1,
  });
  const at = (n: number): string => new Date(BEGIN_MS + n * 70_000).toISOString().replace('Z', '');
  const cards = [
    ['IMAGETYP', 'LIGHT'],
    ['DATE-OBS', at(0)],
    ['EXPTIME', 60],
    ['OBJECT', 'NGC 281'],
    ['FILTER', 'L'],
    ['TELESCOP', 'heron'],
  ] as const;
  const frame = writeFits({ cards, ...SIZE, bitpix: 16, pixels });
  const stamp = frame.indexOf(at(0));
  for (let n = 0; n < FRAMES; n++) {
    frame.write(at(n), stamp, 'latin1');
    writeFileSync(join(frames, `light_${n}.fits`), frame);
  }
  return frames;
}

const filesIn = (path: string): string[] =>
  existsSync(path)
    ? readdirSync(path, { recursive: true, encoding: 'utf8' }).filter((name) => /\.json$/.test(name))
    : [];

interface Night {
  readonly frames: readonly { readonly file: string; readonly stars: object | null }[];
  readonly warnings: readonly { readonly code: string; readonly message: string; readonly count?: number }[];
}

/** Runs a report; sends SIGINT as soon as a measurement is remembered, where that is asked for. */
async function report(
  frames: string,
  out: string,
  interrupt: boolean,
): Promise<{ status: number | null; stderr: string }> {
  const cache = join(folder, 'cache');
  const args = [PROGRAM, 'report', frames, '--out', out, '--no-pdf', '--no-pictures', '--stars', 'full'];
  const child = spawn(process.execPath, args, {
    cwd: folder,
    env: { ...process.env, XDG_CACHE_HOME: cache },
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let stderr = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
  const watch = setInterval(() => {
    if (!interrupt || filesIn(cache).length === 0) return;
    clearInterval(watch);
    child.kill('SIGINT');
  }, 5);
  const status = await new Promise<number | null>((resolve) => child.on('close', resolve));
  clearInterval(watch);
  return { status, stderr };
}

const nightIn = (out: string): Night => JSON.parse(readFileSync(join(out, 'night.json'), 'utf8')) as Night;
const measuredIn = ({ frames }: Night): number => frames.filter(({ stars }) => stars !== null).length;

// Windows knows no signal that a parent could send.
it.skipIf(process.platform === 'win32')(
  'makes the report with what was measured, remembers it, and the next report measures the rest',
  async () => {
    const frames = session();
    const first = join(folder, 'first');
    const stopped = await report(frames, first, true);
    expect(stopped.status, stopped.stderr).toBe(0);
    expect(stopped.stderr).toContain('the report uses what was measured so far');
    expect(existsSync(join(first, 'report.html'))).toBe(true);
    const night = nightIn(first);
    const measured = measuredIn(night);
    expect(night.frames).toHaveLength(FRAMES);
    expect(measured).toBeGreaterThan(0);
    expect(measured).toBeLessThan(FRAMES);
    const [said] = night.warnings.filter(({ code }) => code === 'stars-interrupted');
    expect(said?.count).toBe(FRAMES - measured);
    expect(said?.message).toContain(`${FRAMES - measured} of ${FRAMES} frames are left out`);
    expect(filesIn(join(folder, 'cache'))).toHaveLength(measured);

    // Of the rest a few are enough.
    const left = night.frames.filter(({ stars }) => stars === null).map(({ file }) => file);
    const few = inFull(left.length, 5);
    for (const file of left.slice(few)) unlinkSync(join(frames, file));
    const all = measured + Math.min(few, left.length);
    const second = join(folder, 'second');
    expect((await report(frames, second, false)).status).toBe(0);
    expect(measuredIn(nightIn(second))).toBe(all);
    expect(filesIn(join(folder, 'cache'))).toHaveLength(all);
  },
);
