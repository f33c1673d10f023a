import { describe, expect, it } from 'vitest';
import { draftDialect, readSample } from '../../../src/gather/dialects/index.js';
import { htmlRows } from '../../../src/gather/dialects/document/html-rows.js';
import { sqlRows } from '../../../src/gather/dialects/document/sql-rows.js';
import { withLog } from '../lines/support/temp-log.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 30);
const clock = (ms: number): string => new Date(ms).toISOString().slice(11, 19);
const dated = (ms: number): string => `${new Date(ms).toISOString().slice(0, 10)} ${clock(ms)}`;

/** What was done, from when to when, s after the beginning. */
const STEPS = Array.from({ length: 40 }, (_, i) => [
  { what: 'exposure', from: i * 330, to: i * 330 + 300, filter: 'Ha', file: `m33_${i}.fits` },
  { what: 'dither', from: i * 330 + 304, to: i * 330 + 308, filter: '', file: '' },
  { what: 'settling', from: i * 330 + 308, to: i * 330 + 320, filter: '', file: '' },
]).flat();

/** The events of a log by an untouched draft, s after the beginning. */
async function eventsRead(log: string, name: string): Promise<Record<string, number[]>> {
  const yaml = await withLog(log, async (root, file) => draftDialect(await readSample(root, file)).yaml, name);
  expect(yaml).toContain('entries: rows');
  const found: Record<string, number[]> = {};
  for (const { event, atMs } of (await read(yaml, log, { zone: 'UTC', sessionDate: '2026-10-14', name })).events)
    (found[event] ??= []).push((atMs - T0) / 1000);
  return found;
}

const of = (what: string, side: 'from' | 'to'): number[] =>
  STEPS.flatMap((step) => (step.what === what ? [step[side]] : []));

function expectSteps(found: Record<string, number[]>, words = ['exposure', 'dither', 'settling']): void {
  for (const what of words) {
    expect(found[`${what}-begin`]?.sort((a, b) => a - b)).toEqual(of(what, 'from'));
    expect(found[`${what}-end`]?.sort((a, b) => a - b)).toEqual(of(what, 'to'));
  }
}

describe('an HTML page', () => {
  const page = (row: (cells: readonly string[], tag: string) => string): string =>
    [
      '<!DOCTYPE html>',
      '<html><head><title>Nachtbuch</title><style>td { color: #333 }</style></head>',
      '<body><h1>Cierzo Hill, Nacht vom <b>14.10.2026</b></h1>',
      '<p>Zeiten in UTC</p>',
      '<table>',
      row(['von', 'bis', 'Schritt', 'Filter', 'Datei'], 'th'),
      ...STEPS.map(({ what, from, to, filter, file }) =>
        row(
          [
            clock(T0 + from * 1000),
            clock(T0 + to * 1000),
            { exposure: 'Belichtung', dither: 'Versatz', settling: 'Beruhigung' }[what] ?? '',
            filter,
            file,
          ],
          'td',
        ),
      ),
      '</table></body></html>',
    ].join('\n');

  it('has a row a line', async () => {
    const log = page((cells, tag) => `<tr>${cells.map((cell) => `<${tag}>${cell}</${tag}>`).join('')}</tr>`);
    expectSteps(await eventsRead(log, 'night.html'));
  });

  it('has a cell a line, its ends left out', async () => {
    const log = page((cells, tag) =>
      ['<tr class="step">', ...cells.map((cell) => `  <${tag} align=left><i>${cell}</i>`)].join('\n'),
    );
    expectSteps(await eventsRead(log, 'night.html'));
  });

  it('has characters by name, cells over several columns, and remarks', () => {
    expect(
      htmlRows(
        '<p>4&#39;5&nbsp;&deg;C</p><!-- <tr> --><table><tr><td>a&amp;b<td colspan="2">K&uuml;hlung</td></tr>' +
          '<tr><td>1<br>2</td></tr><tr><td>\t3</table>',
      ),
    ).toEqual(["4'5 °C", 'a&b\t\tKühlung', '1 2', '3']);
  });
});

describe('lines within a cell', () => {
  it('are things of their own if they begin with words', () => {
    const rows = htmlRows(
      '<table><tr><th>begun<br>at<th>what</tr><tr><td>2026-10-14<br>21:04<td>dither\nends<br/>settling<br></tr>' +
        '<tr><td><p>21:05</p><td><p>exposure ends</p><p>saved <b>a.fits</b></p></tr></table>',
    );
    expect(rows).toEqual([
      'begun at\twhat',
      '2026-10-14 21:04\tdither ends / settling',
      '21:05\texposure ends / saved a.fits',
    ]);
  });
});

describe('a dump of a database', () => {
  const create = 'CREATE TABLE step (id INTEGER PRIMARY KEY, kind INTEGER, began TEXT, ended TEXT, file TEXT);';
  const kinds = [...new Set(STEPS.map(({ what }) => what))];
  const row = ({ what, from, to, file }: (typeof STEPS)[number], i: number): string =>
    `(${i + 1}, ${kinds.indexOf(what) + 1}, '${dated(T0 + from * 1000)}', '${dated(T0 + to * 1000)}', ${file === '' ? 'NULL' : `'${file}'`})`;
  const names = [
    'CREATE TABLE kind (nr INTEGER, name TEXT);',
    ...kinds.map((kind, i) => `INSERT INTO kind VALUES (${i + 1}, '${kind}');`),
  ];

  it('inserts a row a statement, whose numbers other tables name', async () => {
    const log = [
      '-- all times UTC',
      ...names,
      create,
      ...STEPS.map((step, i) => `INSERT INTO step VALUES ${row(step, i)};`),
    ];
    expectSteps(await eventsRead(log.join('\n'), 'night.sql'));
  });

  it('inserts all rows in one statement, its columns named there', async () => {
    const log = [
      ...names,
      'INSERT INTO `step` (`id`, `kind`, `began`, `ended`, `file`) VALUES',
      `${STEPS.map(row).join(',')};`,
    ];
    expectSteps(await eventsRead(log.join('\n'), 'night.sql'));
  });

  it('has texts with quotes and brackets, and rows as lines with tabs', () => {
    expect(
      sqlRows(
        '/* night */ CREATE TABLE a (x TEXT, n DECIMAL(5, 2) DEFAULT (1), PRIMARY KEY (x));\n' +
          "INSERT INTO a VALUES ('it''s; (so)', 2.5), ('a\\'b', NULL);\n" +
          'COPY public.b (y, z) FROM stdin;\n1\t\\N\n2\tu\n\\.\n',
      ),
    ).toEqual(['night', 'a', 'x\tn', "it's; (so)\t2.5", "a'b\t", 'public.b', 'y\tz', '1\t', '2\tu']);
  });
});

it('takes no text for a page or a dump that is none, and none too long for it', () => {
  expect(htmlRows('<night><table/></night>')).toBeNull();
  expect(sqlRows('-- night\n21:00:00 exposure begins')).toBeNull();
  for (const hostile of [
    "INSERT INTO a VALUES ('",
    'INSERT INTO a VALUES (1, /* ',
    "INSERT INTO a ((((('",
    '<table><tr><td',
  ])
    expect(() => [sqlRows(hostile.repeat(50_000)), htmlRows(hostile.repeat(50_000))]).not.toThrow();
});

it('a page may name what no character is called, and a dump insert more rows than a call takes values', () => {
  const row = '<tr><td>20:00</td><td>&toString; &deg;</td></tr>';
  expect(htmlRows(`<table>${row.repeat(3)}</table>`)?.[0]).toBe('20:00\t&toString; °');
  const rows = Array.from({ length: 130_000 }, () => '(1,2)');
  expect(sqlRows(`INSERT INTO t (a, b) VALUES ${rows.join(',')};`)?.length).toBe(130_002);
});
