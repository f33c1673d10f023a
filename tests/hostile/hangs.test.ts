import { spawnSync } from 'node:child_process';
import { readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readLines } from '../../src/gather/lines/read-lines.js';
import { WarningTally } from '../../src/gather/lines/warning-tally.js';
import { cutToWidth } from '../../src/report/timeline/scale.js';
import { writeFiles } from '../support/generator/samples.js';
import { inFull } from '../support/runs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger, type ChildRun } from './support/child.js';

cleanUp();

const line = (at: string, more: object): string => JSON.stringify({ at: `2026-10-14T${at}:00Z`, ...more });
const HUGE = `${'nebula '.repeat(130_000)}end`;

/** A night of one exposure each of trains, targets and filters with names that mislead or never end. */
function nightOf(names: readonly string[]): string {
  return names
    .flatMap((name, i) => {
      const minute = String(i * 4).padStart(2, '0');
      const end = String(i * 4 + 2).padStart(2, '0');
      return [
        line(`21:${minute}`, { event: 'exposure-begin', seconds: 120, target: name, filter: name }),
        line(`21:${end}`, { event: 'exposure-end' }),
        line(`21:${end}`, { event: 'dither-ready' }),
        line(`21:${end}`, { event: 'note', text: name }),
      ];
    })
    .join('\n');
}

describe('names that are keys of every object, and names without end', () => {
  it('are names like others, for trains, targets and filters, in bounded time and memory', async () => {
    const session = tempFolder();
    const trains = ['constructor', 'toString', 'hasOwnProperty', 'valueOf'];
    writeFiles(
      session,
      new Map([
        [
          'rig.yaml',
          [
            'trains:',
            ...trains.map((id) => `  - { id: ${id}, frames: [ "${id}/*.fits" ], logs: [ { files: "${id}.jsonl" } ] }`),
            'targets: [ { name: constructor, ra: 10, dec: 20, goals: { constructor: 1h, toString: 1h, __proto__: 1h } } ]',
          ].join('\n'),
        ],
        ...trains.map((id) => [`${id}.jsonl`, nightOf(['constructor', 'toString', '__proto__', HUGE])] as const),
      ]),
    );
    const out = join(tempFolder(), 'report');
    const run = await nightledger(['report', '.', '--out', out, '--no-pdf', '--also', 'summary', 'card', 'frames'], {
      cwd: session,
      seconds: 90,
    });
    expect(run, run.stderr).toMatchObject({ status: 0, withinBounds: true });
    const record = JSON.parse(readFileSync(join(out, 'night.json'), 'utf8')) as { trains: { id: string }[] };
    expect(record.trains.map((t) => t.id).sort()).toEqual([...trains].sort());
    expect(readFileSync(join(out, 'report.html')).length).toBeLessThan(3_000_000);
  });

  it('are cut to a width in one pass', () => {
    expect(cutToWidth(HUGE, 60)).toMatch(/^nebula n?.*…$/);
    expect(cutToWidth('Ha', 60)).toBe('Ha');
    expect(cutToWidth('IC 1396', 1)).toBe('');
  });
});

describe.skipIf(process.platform === 'win32')('files that never end', () => {
  it.each([
    ['a pipe', (path: string) => spawnSync('mkfifo', [path])],
    ['a device', (path: string) => symlinkSync('/dev/zero', path)],
  ])('%s as rig file, dialect, goals or record is refused without being waited for', async (_, make) => {
    const cwd = tempFolder();
    writeFiles(
      cwd,
      new Map([
        ['session/a.jsonl', nightOf(['NGC 281'])],
        ['archive/x.txt', ''],
      ]),
    );
    for (const file of ['rig.yaml', 'd.yaml', 'archive/goals.yaml', 'archive/2026-10-14.json']) make(join(cwd, file));
    const runs: ChildRun[] = [];
    for (const args of [
      ['report', 'session', '--out', 'out', '--rig', 'rig.yaml', '--no-pdf'],
      ['dialect', 'check', 'session/a.jsonl', '--dialect', 'd.yaml'],
      ['progress', 'archive', '--out', 'out', '--no-pdf'],
    ])
      runs.push(await nightledger(args, { cwd, seconds: 20 }));
    for (const run of runs) expect(run).toMatchObject({ status: 1, withinBounds: true });
    for (const run of runs.slice(0, 2)) expect(run.stderr).toContain('not a regular file');
  });

  it('a packed log that unpacks to a thousand times its size is read so far and reported', async () => {
    const folder = tempFolder();
    // A gzip file may have many members: 3 MB of the many unpack to 3 GB, of the few 80 kB to 80 MB.
    const [members, line] = inFull([192, '\n'], [5, 'a line that says nothing\n']);
    const member = gzipSync(Buffer.alloc(16 * 2 ** 20, line));
    writeFiles(folder, new Map([['bomb.log', Buffer.concat(Array.from({ length: members }, () => member))]]));
    const tally = new WarningTally('bomb.log');
    await readLines(folder, 'bomb.log', 'auto', tally, () => {});
    expect(tally.list()).toMatchObject([{ code: 'expanded-too-far', source: { file: 'bomb.log' } }]);
  });
});
