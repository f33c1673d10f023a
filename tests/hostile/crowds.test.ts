import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { writeFiles } from '../support/generator/samples.js';
import { inFull } from '../support/runs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger, ROOT, type ChildRun } from './support/child.js';
import { smallLight } from './support/small-light.js';

cleanUp();

const RIG = `site: { name: x, latitude: 40, longitude: -1, elevation: 100 }
trains: [ { id: heron, frames: [ "*.fits" ], logs: [ { files: "*.jsonl" } ] } ]
`;
const TARGETS = inFull(6000, 520);
const OTHERS = inFull(400, 60);
/** A machine that does other work as well: each took minutes, gigabytes or the whole report. */
const BOUNDS = { seconds: 100, megabytes: 900 };

async function report(files: Map<string, string | Buffer>): Promise<{
  readonly run: ChildRun;
  readonly record: () => string;
}> {
  const [session, out] = [tempFolder(), join(tempFolder(), 'report')];
  writeFiles(session, files);
  const run = await nightledger(['report', '.', '--out', out, '--no-pdf', '--stars', 'off'], {
    cwd: session,
    ...BOUNDS,
  });
  return { run, record: () => readFileSync(join(out, 'night.json'), 'utf8') };
}

const at = (ms: number): string => new Date(Date.UTC(2026, 9, 14, 20) + ms).toISOString();
const line = (ms: number, event: string, more: object = {}): string => JSON.stringify({ at: at(ms), event, ...more });

const light = (i: number, telescope: string): Buffer =>
  smallLight(at(i * 2000).slice(0, 19), 1, [['TELESCOP', telescope]]);

describe('more than any night holds', () => {
  it('of events of every kind is cut, and reported', { timeout: 120_000 }, async () => {
    const kinds = ['dither-begin', 'dither-end', 'focus-begin', 'star-gap-begin', 'hold-begin'];
    // One of each, and then many of the cheapest: what each kind costs shows with fewer of them.
    const order = [...kinds, ...Array.from({ length: inFull(0, 24) * kinds.length }, () => 'dither-ready')];
    const log = Array.from({ length: inFull(200_000, 101_000) }, (_, i) => line(i, order[i % order.length] ?? ''));
    const { run, record } = await report(
      new Map<string, string | Buffer>([
        ['rig.yaml', RIG],
        ['a.jsonl', log.join('\n')],
        ['a.fits', light(0, 'heron')],
      ]),
    );
    expect(run).toMatchObject({ status: 0, withinBounds: true });
    expect(record()).toContain('one night holds 100000 events of logs or more');
  });

  it('of targets and filters share a name', { timeout: 120_000 }, async () => {
    const log = Array.from({ length: TARGETS }, (_, i) => [
      line(i * 2000, 'exposure-begin', { seconds: 1, target: `target ${i}`, filter: `filter ${i}` }),
      line(i * 2000 + 1000, 'exposure-end'),
    ]).flat();
    const { run, record } = await report(
      new Map<string, string | Buffer>([
        ['rig.yaml', RIG],
        ['a.jsonl', log.join('\n')],
      ]),
    );
    expect(run).toMatchObject({ status: 0, withinBounds: true });
    expect(record()).toContain(
      `the night names more than 500 targets; ${TARGETS - 500} of them are listed under \\"further targets\\"`,
    );
    expect(record()).toContain('"filter": "further filters"');
  });

  it('of trains by their headers belongs to none, and those with most frames stay', { timeout: 120_000 }, async () => {
    const files = new Map<string, string | Buffer>(
      Array.from({ length: OTHERS }, (_, i) => [`o${i}.fits`, light(i, `other ${i}`)]),
    );
    for (let i = 0; i < 3; i++) files.set(`h${i}.fits`, light(1000 + i, 'heron'));
    const { run, record } = await report(files);
    expect(run).toMatchObject({ status: 0, withinBounds: true });
    expect(record()).toContain(`${OTHERS - 23} frames belong to no train`);
    expect(record()).toContain('"id": "heron"');
  });

  it('of keys and nesting in a rig file is refused in few words', { timeout: 60_000 }, async () => {
    const keys = (count: number): string => Array.from({ length: count }, (_, i) => `k${i}: ${i}\n`).join('');
    const few = await report(
      new Map<string, string | Buffer>([
        ['rig.yaml', RIG + keys(inFull(20_000, 5_000))],
        ['a.fits', light(0, 'heron')],
      ]),
    );
    expect(few.run).toMatchObject({ status: 0, withinBounds: true });
    for (const text of [keys(100_000), `site: ${'['.repeat(30_000)}`, `site: { timezone: "${'A/'.repeat(90_000)}" }`]) {
      const { run } = await report(new Map<string, string | Buffer>([['rig.yaml', RIG + text]]));
      expect(run).toMatchObject({ status: 1, withinBounds: true });
      expect(run.stderr.length).toBeLessThan(20_000);
    }
  });

  it('of lists within lists in a field of the event log costs that field', { timeout: 60_000 }, async () => {
    const deep = `{"at":"${at(0)}","event":"note","text":${'['.repeat(400_000)}${']'.repeat(400_000)}}`;
    const { run, record } = await report(
      new Map<string, string | Buffer>([
        ['rig.yaml', RIG],
        ['a.jsonl', `${deep}\n${line(1, 'note', { text: 'x' })}`],
        ['a.fits', light(0, 'heron')],
      ]),
    );
    expect(run).toMatchObject({ status: 0, withinBounds: true });
    expect(record()).toContain('must be a text, not a list');
  });
});

describe('a record', () => {
  const RECORD = join(ROOT, 'sample-sessions/autumn-archive/2026-10-08.json');
  type Json = Record<string, unknown>;

  function withStages(change: (text: string) => string): string {
    const record = JSON.parse(readFileSync(RECORD, 'utf8')) as Json & { stages: { data: string } };
    const text = gunzipSync(Buffer.from(record.stages.data, 'base64')).toString('utf8');
    record.stages.data = gzipSync(change(text)).toString('base64');
    return JSON.stringify(record);
  }

  it.each([
    [
      'whose spans last for years',
      (text: string) => text.replace(/"endMs":(\d+)/g, (_, ms: string) => `"endMs":${Number(ms) + 3e10}`),
      'longer than two days',
    ],
    [
      'whose night is of another year than its frames',
      (text: string) =>
        text.replace(/"span":\{"startMs":\d+,"endMs":\d+\}/, '"span":{"startMs":1577880000000,"endMs":1577966400000}'),
      'more than a day away from the night',
    ],
    [
      'of ten thousand trains and more',
      (text: string) =>
        text.replace(
          /"trains":\[(\{.*?\})[,\]]/,
          (whole, one: string) =>
            `"trains":[${`${one},`.repeat(inFull(100_000, 10_000))}${one}${whole.endsWith(']') ? ']' : ','}`,
        ),
      'expected array to have <=24',
    ],
  ])('%s is refused', { timeout: 60_000 }, async (_, change, why) => {
    const folder = tempFolder();
    writeFiles(folder, new Map<string, string | Buffer>([['night.json', withStages(change)]]));
    const run = await nightledger(['report', 'night.json', '--out', 'out', '--no-pdf'], { cwd: folder, ...BOUNDS });
    expect(run).toMatchObject({ status: 1, withinBounds: true });
    expect(run.stderr).toContain(why);
  });
});
