/**
 * What DEVELOPERS.md says of adding things is tried: each is added to a copy of the sources, by as many files as the
 * table allows and no more, and the copy does what was added.
 */
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clockOf, isTelling } from '../../src/model/index.js';
import { compileModules } from '../../scripts/bundle/compiled-tests.mjs';
import type { Chart } from '../../src/report/charts/chart.js';
import { paletteOf } from '../../src/report/design/filters.js';
import { at, header, light } from '../support/events.js';
import { namedNight } from '../support/nights.js';
import { frame, LIGHT } from '../gather/fits/header-files.js';
import { around, sky } from '../model/judging/around.js';
import { ADDITIONS, type Edit } from './additions.js';
import { ROOT } from './imports.js';

const COPY = mkdtempSync(join(realpathSync(tmpdir()), 'nightledger-adding-'));

const COMPILED = join(COPY, 'compiled');

/** Modules of the copy that are asked what they know of what was added. */
const ASKED = [
  'account/ledger',
  'config/index',
  'findings/index',
  'gather/event-log/index',
  'gather/fits/index',
  'model/judging/cause',
  'model/judging/index',
  'reconstruct/index',
  'record/json-schema',
  'report/charts/index',
  'vocabulary/index',
] as const;

/** A module of the copy, typed as the one it is a copy of. */
async function copied<T>(name: (typeof ASKED)[number]): Promise<T> {
  return (await import(/* @vite-ignore */ pathToFileURL(join(COMPILED, 'src', `${name}.mjs`)).href)) as T;
}

function apply(edit: Edit): void {
  const path = join(COPY, edit.file);
  if ('text' in edit) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, edit.text, { flag: 'wx' });
    return;
  }
  const text = readFileSync(path, 'utf8');
  const [head, ...tail] = text.split(edit.before);
  if (tail.length !== 1) throw new Error(`${edit.file} holds ${tail.length} times: ${edit.before}`);
  const isLine = head === '' || head?.endsWith('\n') === true;
  writeFileSync(path, `${head}${edit.add}${isLine ? '\n' : ''}${edit.before}${tail.join('')}`);
}

beforeAll(async () => {
  cpSync(join(ROOT, 'src'), join(COPY, 'src'), { recursive: true });
  cpSync(join(ROOT, 'templates'), join(COPY, 'templates'), { recursive: true });
  // The copy finds the packages.
  symlinkSync(join(ROOT, 'node_modules'), join(COPY, 'node_modules'), 'junction');
  for (const edits of Object.values(ADDITIONS)) edits.forEach(apply);
  await compileModules(
    COPY,
    COMPILED,
    ASKED.map((name) => `src/${name}.ts`),
  );
});

afterAll(() => {
  rmSync(COPY, { recursive: true, force: true });
});

describe('the table of DEVELOPERS.md', () => {
  const table = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
  const rows = [...table.matchAll(/^\| ([a-z ]+?) +\| +(\d) +\| (.+?) +\|/gm)].map((row) => ({
    thing: row[1] ?? '',
    most: Number(row[2]),
    places: [...(row[3] ?? '').matchAll(/`([^`]+)`/g)].map((place) => place[1] ?? ''),
  }));

  it('names everything that is tried here, and nothing else', () => {
    expect(rows.map(({ thing }) => thing)).toEqual(Object.keys(ADDITIONS));
  });

  it('allows as few files as were promised', () => {
    expect(Object.fromEntries(rows.map(({ thing, most }) => [thing, most]))).toEqual({
      'loss cause': 3,
      'event kind': 3,
      finding: 3,
      chart: 3,
      'header keyword': 2,
      rule: 1,
    });
  });

  it.each(Object.entries(ADDITIONS))('says which files a %s takes', (thing, edits) => {
    const row = rows.find((one) => one.thing === thing);
    const files = [...new Set(edits.map(({ file }) => file))];
    expect(files.length).toBeLessThanOrEqual(row?.most ?? 0);
    const isListed = (file: string): boolean =>
      row?.places.some((place) =>
        new RegExp(`^${place.replace('.', '\\.').replace('NAME', '[a-z-]+')}$`).test(file),
      ) === true;
    expect(files.filter((file) => !isListed(file))).toEqual([]);
  });
});

describe('added to a copy of the sources', () => {
  it('a loss cause is judged by account and replay, and stands in the schema', async () => {
    const { isKept, judgeFrame } =
      await copied<typeof import('../../src/model/judging/index.js')>('model/judging/index');
    const behind = around({ sky: sky({ altitudeDeg: 35 }) });
    const judged = judgeFrame(light('wren', '21:00:00', 300), behind);
    expect(judged).toMatchObject({ verdict: 'lost', causes: [{ kind: 'tall-tree', verdict: 'lost' }] });
    const { factsOf } = await copied<typeof import('../../src/model/judging/cause.js')>('model/judging/cause');
    expect(isKept(factsOf(light('wren', '21:00:00', 300), behind), behind.rules)).toBe(false);
    const { nightJsonSchema } = await copied<typeof import('../../src/record/json-schema.js')>('record/json-schema');
    expect(JSON.stringify(nightJsonSchema())).toContain('"tall-tree"');
  });

  it('an event kind is read from a log with its own fields, stands on the timeline and is charged', async () => {
    const { readEventLog } =
      await copied<typeof import('../../src/gather/event-log/index.js')>('gather/event-log/index');
    const lines = [
      { at: '2026-10-14T21:00:00Z', event: 'turning-begin', why: 'new target' },
      { at: '2026-10-14T21:00:40Z', event: 'turning-end', ok: true, position: 90, pixels: 3 },
    ];
    writeFileSync(join(COPY, 'a.jsonl'), lines.map((line) => JSON.stringify(line)).join('\n'));
    const { events, times = [], warnings } = await readEventLog(COPY, 'a.jsonl', { train: 'heron' });
    expect(warnings.map(({ message }) => message)).toEqual([
      'Line 2: the event turning-end has no field "pixels"; it was not used.',
    ]);
    const { reconstruct } = await copied<typeof import('../../src/reconstruct/index.js')>('reconstruct/index');
    const night = { startMs: at('18:00:00'), endMs: at('06:00:00') };
    const { activities } = reconstruct({
      night,
      trains: ['heron'],
      headers: [{ ...header('a.fits', '21:10:00', 300), train: 'heron' }],
      library: [],
      events: events.filter(isTelling),
      lineTimes: times,
      targets: [],
      filterAliases: {},
      clocks: [],
    });
    expect(activities).toMatchObject([
      {
        kind: 'turning',
        train: 'heron',
        span: { startMs: at('21:00:00'), endMs: at('21:00:40') },
        why: 'new target',
        facts: { position: 90 },
      },
    ]);
    const { keepLedgers } = await copied<typeof import('../../src/account/ledger.js')>('account/ledger');
    const [ledger] = keepLedgers({
      window: night,
      trains: ['heron'],
      lights: [],
      calibration: [],
      activities,
      dithers: [],
    });
    expect(ledger?.totalsMs).toMatchObject({ pointing: 40_000 });
  });

  it('a finding is asked and ranked', async () => {
    const { findAll } = await copied<typeof import('../../src/findings/index.js')>('findings/index');
    expect(findAll(namedNight('twin-night')).ranked.map(({ id }) => id)).toContain('full-moon');
  });

  it('a chart is in the registry and answers for a night', async () => {
    const { CHARTS } = await copied<typeof import('../../src/report/charts/index.js')>('report/charts/index');
    const night = namedNight('twin-night');
    const context = { clock: clockOf('UTC'), palette: paletteOf(night), size: 'wide' as const };
    const charts: readonly Chart[] = CHARTS;
    expect(charts.find(({ id }) => id === 'dew')?.draw(night, context)).toEqual({
      missing: `no header of ${night.date} has a dew point`,
    });
  });

  it('a header keyword is read', async () => {
    const { readHeaderFrames } = await copied<typeof import('../../src/gather/fits/index.js')>('gather/fits/index');
    writeFileSync(join(COPY, 'a.fits'), frame([...LIGHT, ['DRAWTUBE', 11_250]]));
    const { frames } = await readHeaderFrames(COPY, ['a.fits'], { nowMs: at('12:00:00') });
    expect(frames).toMatchObject([{ focusPosition: 11_250 }]);
  });

  it('a rule has its default, and is read from the rig file', async () => {
    const { DEFAULT_RULES } = await copied<typeof import('../../src/vocabulary/index.js')>('vocabulary/index');
    expect(DEFAULT_RULES).toMatchObject({ dewLimitCelsius: 2 });
    const { parseRig } = await copied<typeof import('../../src/config/index.js')>('config/index');
    const rig = (value: number): string =>
      `trains: [{ id: heron, frames: ['*.fits'] }]\nrules: { dewLimit: ${value} }\n`;
    expect(parseRig('rig.yaml', rig(4)).rig.rules).toMatchObject({ dewLimitCelsius: 4 });
    expect(() => parseRig('rig.yaml', rig(21))).toThrow('dewLimit');
  });
});
