// Runs commands on a disk without room, and says what they left. Called with a folder, which is either a small disk by
// itself (`mount`), or one that the program is made to believe is full (`inject`). The commands are called in this
// process, one after another: a lock or a file that one leaves is found by the next as it is.
//   node on-small-disk.mjs mount|inject FOLDER PROGRAM SAMPLES ELSEWHERE
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const [how, disk, program, samples, elsewhere] = process.argv.slice(2);
if (how === 'mount') {
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=8m', 'tmpfs', disk], { encoding: 'utf8' });
  if (mounted.status !== 0) process.exit(77);
}
process.env.XDG_CACHE_HOME = join(disk, 'cache');
if (how === 'inject') await import('./believes-full.mjs');
const { run: call } = createRequire(import.meta.url)(program);
const filler = join(disk, 'filler');

/** Uses up the room: large pieces first, then small ones. */
function fill() {
  if (how !== 'mount') {
    process.env.FULL_DISK = disk;
    return;
  }
  mkdirSync(filler, { recursive: true });
  for (const bytes of [1 << 20, 1 << 16, 1 << 12]) {
    for (let i = 0; ; i++) {
      try {
        writeFileSync(join(filler, `${bytes}-${i}`), Buffer.alloc(bytes, 1));
      } catch {
        rmSync(join(filler, `${bytes}-${i}`), { force: true });
        break;
      }
    }
  }
}

function makeRoom() {
  delete process.env.FULL_DISK;
  rmSync(filler, { recursive: true, force: true });
}

async function run(args) {
  let stderr = '';
  const status = await call(args, {
    stdout: { write() {} },
    stderr: {
      write(text) {
        stderr += text;
      },
    },
    env: process.env,
    nowMs: Date.now(),
  });
  return { status, stderr };
}

/** Every file of a folder with a fingerprint of its content. */
function filesOf(folder) {
  if (!existsSync(folder)) return {};
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  return Object.fromEntries(
    entries.map((entry) => {
      const path = join(entry.parentPath, entry.name);
      const hash = entry.isFile() ? createHash('sha256').update(readFileSync(path)).digest('hex') : 'folder';
      return [path.slice(disk.length + 1), hash];
    }),
  );
}

/** Copies the files of a sample whose names a pattern takes: a few of many prove the same. */
function copyOf(sample, to, pattern) {
  const filter = (path) => statSync(path).isDirectory() || pattern.test(path);
  cpSync(join(samples, sample), to, { recursive: true, filter });
  return to;
}

// One night: to plan for the goals of many would take longest of all.
copyOf('autumn-archive', join(disk, 'nights'), /2026-11-22\.json$/);
const session = copyOf('headers-only', join(elsewhere, 'headers'), /_000[1-8]\.fits/);
const starry = copyOf('star-night', join(elsewhere, 'starry'), /rig\.yaml$|heron_\w+_0001\.fits/);
const plain = ['--stars', 'off'];
/** What is run, and the folder that it writes to. With room it is run once before where a former state matters. */
const STEPS = [
  {
    id: 'report',
    folder: 'out',
    args: ['report', session, '--out', join(disk, 'out'), '--no-pdf', ...plain],
    before: true,
  },
  { id: 'archive', folder: 'archive', args: ['archive', 'add', session, '--archive', join(disk, 'archive')] },
  {
    id: 'progress',
    folder: 'progress',
    args: ['progress', join(disk, 'nights'), '--out', join(disk, 'progress'), '--no-pdf'],
    before: true,
  },
  { id: 'sort', folder: 'tree', args: ['sort', session, '--into', join(disk, 'tree'), '--copy', ...plain] },
];
const results = {};
for (const { id, folder, args, before } of STEPS) {
  const first = before ? await run(args) : null;
  const was = filesOf(join(disk, folder));
  fill();
  const full = await run(args);
  const left = filesOf(join(disk, folder));
  makeRoom();
  const again = await run(args);
  results[id] = { first, was, full, left, again, end: Object.keys(filesOf(join(disk, folder))) };
  rmSync(join(disk, folder), { recursive: true, force: true });
}
// The memory of stars is a convenience: a report is made without it.
fill();
results.cache = {
  full: await run(['report', starry, '--out', join(elsewhere, 'out'), '--no-pdf', '--no-pictures']),
};
results.cache.left = filesOf(join(disk, 'cache/nightledger/stars'));
process.stdout.write(JSON.stringify(results));
if (how === 'mount') spawnSync('umount', [disk]);
