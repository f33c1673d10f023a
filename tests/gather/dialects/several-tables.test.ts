import { severalTables } from '../../../src/gather/dialects/draft/layout/several-tables.js';
import { describe, expect, it } from 'vitest';
import { formatCheck } from '../../../src/gather/dialects/check/format-check.js';
import { checkDialect, loadDialect } from '../../../src/gather/dialects/index.js';
import { withLog } from '../lines/support/temp-log.js';
import { brief, dialect, read } from './support/read.js';

const TWO = `dialect: 1
time:
  pattern: "{hour}:{minute}:{second}"
  zone: utc
  date: { header: "^Night of (?<date>.+)$", pattern: "{day} {month-name} {year}", evening: true }
csv:
  - { name: subs, delimiter: ";", header: [no, train, end, seconds, file], time: end }
  - { name: mount, delimiter: ";", header: [at, train, what], time: at }
lines:
  - { when: { file: "." }, event: exposure-end, lasted: seconds, train: "{train}", fields: { file: "{file}" } }
  - { when: { what: "^dither$" }, event: dither-begin, train: "{train}" }
  - { when: { train: "^heron$", table: "^mount$" }, event: note }
`;
const LOG = `Night of 14 October 2026

no;train;end;seconds;file
;;h:m:s;s;
1;heron;20:05:00;300;a.fits
2;heron;02:10:00;300;b.fits
Total;;;600;

at;train;what
19:50:00;heron;dew
20:06:00;heron;dither
01:59:00;heron;dither
`;

describe('a log of several tables', () => {
  it('is read by the columns of each, and each starts from the beginning of the night', async () => {
    const log = await read(TWO, LOG);
    expect(brief(log)).toEqual([
      '2026-10-14T20:00:00.000Z exposure-begin heron',
      '2026-10-14T20:05:00.000Z exposure-end heron {"file":"a.fits"}',
      '2026-10-15T02:05:00.000Z exposure-begin heron',
      '2026-10-15T02:10:00.000Z exposure-end heron {"file":"b.fits"}',
      '2026-10-14T19:50:00.000Z note heron',
      '2026-10-14T20:06:00.000Z dither-begin heron',
      '2026-10-15T01:59:00.000Z dither-begin heron',
    ]);
    expect(log.warnings).toEqual([]);
  });

  it('goes on from its first time where the date is no evening, and counts from midnight again', async () => {
    const dated = TWO.replace('evening: true', 'evening: false');
    expect(brief(await read(dated, LOG))).toEqual(brief(await read(TWO, LOG)));
    const counted = `dialect: 1
time: { pattern: "{elapsed}", zone: utc }
sections: [{ begin: "^Night of (?<time>.+)$", base: "{year}-{month}-{day}" }]
csv:
  - { delimiter: ",", header: [t, a], time: t }
  - { delimiter: ",", header: [t, b], time: t }
lines:
  - { when: { a: x }, event: note }
  - { when: { b: x }, event: dither-begin }
`;
    const log = 'Night of 2026-10-14\nt,a\n72000,x\n7200,x\nt,b\n72060,x\n7260,x\n';
    expect(brief(await read(counted, log)).map((event) => event.slice(0, 19))).toEqual([
      '2026-10-14T20:00:00',
      '2026-10-15T02:00:00',
      '2026-10-14T20:01:00',
      '2026-10-15T02:01:00',
    ]);
  });

  it('tells tables of the same columns, or of none, by what stands above them', async () => {
    const text = `dialect: 1
time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: utc }
csv:
  - { name: focus, below: "^# focus", delimiter: ",", header: [from, to], time: from }
  - { name: moves, below: "^# moves", delimiter: ",", header: [from, to], time: from }
  - { name: sky, below: "^# guiding", delimiter: tab, columns: [at, ra, dec], time: at }
lines:
  - { when: { table: "^focus$" }, event: [focus-begin, focus-end], at: { focus-end: to } }
  - { when: { table: "^moves$" }, event: [slew-begin, slew-end], at: { slew-end: to } }
guiding: { ra: ra, dec: dec }
`;
    const log = await read(
      text,
      `# focus runs
from,to
2026-10-14 20:00:00,2026-10-14 20:01:00
# moves
from,to
2026-10-14 19:50:00,2026-10-14 19:50:40
# guiding
2026-10-14 20:02:00\t0.5\t-0.25
2026-10-14 20:02:02\t0.25\t0.5
`,
    );
    expect(brief(log)).toEqual([
      '2026-10-14T20:00:00.000Z focus-begin',
      '2026-10-14T20:01:00.000Z focus-end',
      '2026-10-14T19:50:00.000Z slew-begin',
      '2026-10-14T19:50:40.000Z slew-end',
    ]);
    expect(log.guiding?.raArcsec).toEqual(Float64Array.of(0.5, 0.25));
    expect(log.warnings).toEqual([]);
  });

  it('may state what all devices do in one of them', async () => {
    const text = `dialect: 1
time: { pattern: "{epoch}" }
csv:
  - { delimiter: ",", header: [t, camera], time: t }
  - { delimiter: ",", header: [t, what], time: t }
states: [camera]
lines:
  - { when: { changed: ^camera$, now: ^open$ }, event: exposure-begin }
  - { when: { what: ^dither$ }, event: dither-begin }
`;
    const log = 't,camera\n1791918000,shut\n1791918001,open\n1791918002,open\nt,what\n1791918003,dither\n';
    expect((await read(text, log)).events.map(({ event }) => event)).toEqual(['exposure-begin', 'dither-begin']);
  });

  it('is checked table by table', async () => {
    const report = await withLog(LOG, (root, name) => checkDialect(root, name, dialect(TWO), {}));
    expect(report.tables).toEqual([
      { name: 'subs', firstLine: 3, rows: 4, used: 2, unmatched: 2 },
      { name: 'mount', firstLine: 9, rows: 3, used: 3, unmatched: 0 },
    ]);
    expect(formatCheck(report)).toContain('  mount: 3 lines below line 9, 3 gave something, 0 unmatched');
    const short = await withLog(LOG.slice(0, LOG.indexOf('at;train')), (root, name) =>
      checkDialect(root, name, dialect(TWO), {}),
    );
    expect(formatCheck(short)).toContain('mount: no line of the log is its header row');
  });

  it.each([
    ['{ what: x, end: y }', /no table has all of these columns: "what", "end"/],
    ['{ fil: x }', /there is no column "fil"; did you mean "file"/],
    ['{ what: "^dither$" }', /"file" is neither captured by "when" nor a column/],
  ])('a rule on %s is refused', (when, message) => {
    const loaded = loadDialect('x.yaml', TWO.replace('{ file: "." }', when));
    expect(loaded.dialect).toBeNull();
    expect(loaded.warnings.map((warning) => warning.message).join('\n')).toMatch(message);
  });

  it.each([
    [
      'header: [at, train, what]',
      'header: [train, end, no, seconds, file]',
      /its header row is the same as that of table 1/,
    ],
    ['header: [at, train, what]', 'columns: [at, train, what]', /say with "below" which line is above it/],
    ['time: at }', 'time: end }', /csv#2\.time: there is no column "end"/],
    ['time: at }', 'time: at, titel: x }', /the key "titel" is not known here/],
  ])('a table with %s as %s is refused', (from, to, message) => {
    const loaded = loadDialect('x.yaml', TWO.replace(from, to));
    expect(loaded.dialect).toBeNull();
    expect(loaded.warnings.map((warning) => warning.message).join('\n')).toMatch(message);
  });
});

it('has no names divided by the comma of a decimal number', () => {
  const rows = Array.from({ length: 12 }, (_, i) => `| 14.10.2026 22:${10 + i}:05 | +0,1${i % 10} | −0,2 | |`);
  const table = [...rows, '', 'Mean error: RA 0,91″, Dec 0,70″ of 168 samples noted.', '', '## Guiding, next', ''];
  const lines = [...table, ...table, ...table].map((text, i) => ({ text, number: i + 1 }));
  const tables = severalTables(lines.filter(({ text }) => text !== '')) ?? [];
  expect(tables.filter(({ delimiter }) => delimiter === ',')).toEqual([]);
});
