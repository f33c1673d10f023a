// Kills the program at random moments while it writes two editions in turn into one folder, and looks after each kill
// whether the folder holds files of one edition only; at the end whether anything was left behind.
//   node scripts/soak.mjs [kills] [seed]
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { uniformFloat32 } from 'pure-rand/distribution/uniformFloat32';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

const root = fileURLToPath(new URL('..', import.meta.url));
const kills = Number(process.argv[2] ?? 200);
const generator = xoroshiro128plus(Number(process.argv[3] ?? 1));
/** Uniform in [0, 1): the same kills for the same seed. */
const random = () => uniformFloat32(generator);

const folder = mkdtempSync(join(tmpdir(), 'nightledger-soak-'));
const out = join(folder, 'out');
const temp = join(folder, 'tmp');
mkdirSync(temp);
const env = { ...process.env, TMPDIR: temp };
const EDITIONS = [
  ['headers-only', []],
  ['twin-night', ['--share']],
];
const argumentsOf = ([sample, more]) => [
  join(root, 'dist/cli.js'),
  'report',
  join(root, 'sample-sessions', sample),
  '--out',
  out,
  ...more,
];
const report = (edition) => spawn(process.execPath, argumentsOf(edition), { stdio: 'ignore', env });
const ended = (child) => new Promise((resolve) => child.once('exit', resolve));
/** Every file that is in place, by its path in the folder: what waits or is locked begins with a dot. */
const placed = () =>
  readdirSync(out, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(out, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((path) => !path.startsWith('.'));
const hashOf = (file) => createHash('sha256').update(readFileSync(file)).digest('hex');

/** What a whole edition is, and how long it takes. */
const whole = [];
for (const edition of EDITIONS) {
  const begun = performance.now();
  await ended(report(edition));
  whole.push({ ms: performance.now() - begun, files: placed() });
}

/** `whole`, `incomplete` or `mixed`: by the night in each file that says it, and by the manifest's hashes. */
function judge() {
  const present = placed();
  const manifestFile = join(out, '.nightledger.json');
  if (existsSync(manifestFile)) {
    const { files } = JSON.parse(readFileSync(manifestFile, 'utf8'));
    const isWhole =
      present.length === Object.keys(files).length &&
      Object.entries(files).every(([name, hash]) => present.includes(name) && hashOf(join(out, name)) === hash);
    return isWhole ? 'whole' : 'mixed';
  }
  const waiting = readdirSync(out).filter((name) => name.startsWith('.nightledger-'));
  const manifests = waiting
    .map((name) => join(out, name, 'new/.nightledger.json'))
    .filter((file) => existsSync(file) && existsSync(join(file, '../../swap.json')));
  const oldManifests = waiting.map((name) => join(out, name, 'old/.nightledger.json')).filter(existsSync);
  const sets = [...manifests, ...oldManifests].map((file) => JSON.parse(readFileSync(file, 'utf8')).files);
  const isOne = sets.some((files) => present.every((name) => files[name] === hashOf(join(out, name))));
  return present.length === 0 || isOne ? 'incomplete' : 'mixed';
}

const found = { whole: 0, incomplete: 0, mixed: 0 };
for (let i = 0; i < kills; i++) {
  const n = i % EDITIONS.length;
  const child = report(EDITIONS[n]);
  const signal = random() < 0.7 ? 'SIGKILL' : 'SIGTERM';
  // Half of the kills fall into the last tenth, where files are put in place.
  const share = random() < 0.5 ? random() : 0.85 + random() * 0.25;
  const timer = setTimeout(() => child.kill(signal), whole[n].ms * share);
  await ended(child);
  clearTimeout(timer);
  found[judge()]++;
  process.stderr.write(`${i + 1} of ${kills}: ${JSON.stringify(found)}\n`);
}

// One run to its end tidies up after all that were killed.
await ended(report(EDITIONS[0]));
const browsers = () =>
  spawnSync('ps', ['-eo', 'args'], { encoding: 'utf8' })
    .stdout.split('\n')
    .filter((line) => line.includes(temp) && !line.includes('<defunct>'));
// A browser whose program was killed ends when it has seen that its pipe is closed.
for (let i = 0; i < 100 && browsers().length > 0; i++) await new Promise((resolve) => setTimeout(resolve, 100));
const left = {
  staging: readdirSync(out).filter((name) => name.startsWith('.nightledger-') || name.endsWith('.lock')),
  browsers: browsers(),
  folders: readdirSync(temp),
};
process.stdout.write(`${JSON.stringify({ kills, ...found, atTheEnd: judge(), left }, null, 1)}\n`);
rmSync(folder, { recursive: true, force: true });
const isClean = Object.values(left).every((list) => list.length === 0);
process.exitCode = found.mixed === 0 && isClean ? 0 : 1;
