import { spawn } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { sortNight, type NightPlan } from '../../src/sorting/index.js';
import { inFull } from '../support/runs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const FRAMES = inFull(2000, 600);
const CHILD = fileURLToPath(new URL('sort-in-child.mjs', import.meta.url));

/** Runs the sort in a child and kills it once so many files are in their places. */
async function killedAfter(files: number, job: string): Promise<NodeJS.Signals | null> {
  const child = spawn(process.execPath, [CHILD, job], { stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise<NodeJS.Signals | null>((resolve) => {
    child.once('exit', (_code, signal) => {
      resolve(signal);
    });
  });
  createInterface({ input: child.stdout }).on('line', (line) => {
    if (Number(line) >= files) child.kill('SIGKILL');
  });
  return ended;
}

// Copies: a link is there whole or not at all.
it('a sort of many frames that is killed half-way goes on when it is started again', async () => {
  const session = tempFolder();
  const tree = join(tempFolder(), 'tree');
  mkdirSync(join(session, 'frames'));
  const names = Array.from({ length: FRAMES }, (_, i) => `heron_${String(i).padStart(4, '0')}.fits`);
  for (const name of names) writeFileSync(join(session, 'frames', name), `frame ${name}`);
  const folder = 'NGC-281/Ha/heron';
  const plan: NightPlan = {
    night: '2026-10-14',
    placements: names.map((name) => ({ source: `frames/${name}`, folder, name, as: 'kept' })),
    rejected: [],
    neverWritten: 0,
    lacking: [],
  };
  const job = join(session, 'job.json');
  writeFileSync(job, JSON.stringify({ plan, session, tree, kinds: ['copy'] }));

  expect(await killedAfter(FRAMES / 3, job)).toBe('SIGKILL');
  const whole = readdirSync(join(tree, folder)).filter((name) => !name.startsWith('.'));
  expect(whole.length).toBeGreaterThanOrEqual(FRAMES / 3);
  expect(whole.length).toBeLessThan(FRAMES);
  // What has its name is whole: no half copy stands under one.
  for (const name of whole) expect(readFileSync(join(tree, folder, name), 'utf8')).toBe(`frame ${name}`);

  const again = await sortNight(plan, { session, tree, kinds: ['copy'], nowMs: Date.UTC(2026, 9, 15, 9) });
  expect(again.placed).toBe(FRAMES - whole.length);
  expect(again.manifest).toMatchObject({ complete: true });
  expect(again.manifest.files).toHaveLength(FRAMES);
  expect(readdirSync(join(tree, folder)).sort()).toEqual(names);
  expect(readdirSync(join(session, 'frames')).sort()).toEqual(names);
});
