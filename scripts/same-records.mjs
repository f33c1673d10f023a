// Whether two builds of the program say the same: every sample session and a number of random nights are reported by
// both, and all that they write compared byte for byte, but for the line of the page that names the hour it was made.
//
//   npm run build && cp -r dist BEFORE      (change something)      npm run build
//   node scripts/same-records.mjs BEFORE [--nights 20]
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { root, withModule } from './load-ts.mjs';

const { values, positionals } = parseArgs({
  options: { nights: { type: 'string', default: '20' } },
  allowPositionals: true,
});
if (positionals.length !== 1) {
  process.stderr.write('name the folder of the build to compare with\n');
  process.exit(2);
}
const folder = mkdtempSync(join(tmpdir(), 'nightledger-same-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

/** The command line of the other build, beside all that a build reads. */
function placed(dist) {
  const place = join(folder, 'before');
  mkdirSync(place);
  for (const name of ['templates', 'schema', 'package.json'])
    cpSync(join(root, name), join(place, name), { recursive: true });
  symlinkSync(join(root, 'node_modules'), join(place, 'node_modules'), 'junction');
  cpSync(dist, join(place, 'dist'), { recursive: true });
  return join(place, 'dist/cli.js');
}

/** Sessions, and single records: what `report` takes. */
function samples() {
  const at = join(root, 'sample-sessions');
  return readdirSync(at).flatMap((name) =>
    name === 'autumn-archive'
      ? readdirSync(join(at, name))
          .filter((file) => /^\d.*\.json$/.test(file))
          .map((file) => join(at, name, file))
      : [join(at, name)],
  );
}

const COLOPHON = /<p class="colophon">.*<\/p>/;

function written(cli, session, out) {
  const { status, stderr } = spawnSync(
    process.execPath,
    [cli, 'report', session, '--out', out, '--no-pdf', '--quiet', '--also', 'summary'],
    { encoding: 'utf8' },
  );
  const files = readdirSync(out, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith('.'))
    .map((entry) => join(entry.parentPath, entry.name));
  return {
    answer: `${status}\n${stderr}`,
    files: new Map(
      files.map((file) => [file.slice(out.length), readFileSync(file, 'utf8').replace(COLOPHON, '')]).sort(),
    ),
  };
}

const clis = [placed(resolve(positionals[0])), join(root, 'dist/cli.js')];
const nights = await withModule('/tests/support/generator/any-nights.ts', ({ writeAnyNights }) =>
  writeAnyNights(join(folder, 'nights'), Number(values.nights)),
);
let differing = 0;
const sessions = [...samples(), ...nights];
for (const session of sessions) {
  const [before, now] = clis.map((cli, i) => written(cli, session, join(folder, `out-${i}`, basename(session))));
  const names = new Set([...before.files.keys(), ...now.files.keys()]);
  const others = [...names].filter((name) => before.files.get(name) !== now.files.get(name));
  if (before.answer !== now.answer) others.push('what it says');
  if (others.length === 0) continue;
  differing++;
  process.stdout.write(`${basename(session)}: ${others.join(', ')}\n`);
}
process.stdout.write(`${sessions.length - differing} of ${sessions.length} nights are the same in both builds\n`);
process.exitCode = differing === 0 ? 0 : 1;
