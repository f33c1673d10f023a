import { describe, expect, it } from 'vitest';
import { stateColumns } from '../../../src/gather/dialects/draft/kinds/snapshots.js';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const at = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString();
const HEAD = ['time', 'mount', 'guider', 'camera', 'wheel', 'seconds', 'air'];

/** A row whenever a device changes, with the states of all of them. */
const ROWS = [
  [0, 'parked', 'off', 'idle', 'L', '', '9.8'],
  [10, 'slewing', 'off', 'idle', 'L', '', '9.8'],
  [60, 'tracking', 'off', 'idle', 'L', '', '9.7'],
  [70, 'tracking', 'settling', 'idle', 'L', '', '9.7'],
  [80, 'tracking', 'guiding', 'idle', 'L', '', '9.7'],
  ...Array.from({ length: 10 }, (_, i) =>
    [
      [0, 'turning to Ha', 'idle', 'guiding', ''],
      [6, 'Ha', 'idle', 'guiding', ''],
      [7, 'Ha', 'exposing', 'guiding', '180'],
      [187, 'Ha', 'reading', 'guiding', ''],
      [190, 'Ha', 'idle', 'guiding', ''],
      [191, 'Ha', 'idle', 'dithering', ''],
      [194, 'Ha', 'idle', 'settling', ''],
      [206, 'Ha', 'idle', 'guiding', ''],
    ]
      .filter((_row, k) => i % 4 === 0 || k > 1)
      .map(([after, wheel, camera, guider, seconds]) => [
        100 + i * 220 + Number(after),
        'tracking',
        guider,
        camera,
        String(wheel).replace('Ha', i < 4 ? 'Ha' : 'OIII'),
        seconds,
        '9.5',
      ]),
  ).flat(),
].map(([seconds, ...cells]) => [at(Number(seconds)), ...cells.map(String)]);

describe('a table that shows the states of all devices, whatever has changed', () => {
  const lines = ROWS.map((row, i) => ({
    fields: new Map(row.flatMap((cell, k) => (cell === '' ? [] : [[HEAD[k] ?? '', cell] as const]))),
    line: i + 2,
    atMs: Date.parse(row[0] ?? ''),
  }));

  it('is known by rows that change now in this column, now in that one alone', () => {
    expect(stateColumns(lines, ['time'])).toEqual(['mount', 'guider', 'camera', 'wheel']);
    // A remark that names a file repeats a state column.
    const withRemarks = (remark: string) =>
      lines.map(({ fields, ...rest }) => ({
        ...rest,
        fields:
          fields.get('camera') === 'idle' && fields.get('guider') === 'guiding'
            ? new Map([...fields, ['remark', remark]])
            : fields,
      }));
    expect(stateColumns(withRemarks('saved: m33_001.fits'), ['time'])).not.toContain('remark');
    expect(stateColumns(withRemarks('m33_001.fits'), ['time'])).toContain('remark');
    const events = lines.map(({ fields, ...rest }) => ({
      ...rest,
      fields: new Map([
        ['time', ''],
        ['device', 'camera'],
        ['level', 'info'],
        ['what', [...fields.values()].join(' ')],
      ]),
    }));
    expect(stateColumns(events, ['time'])).toEqual([]);
  });

  it('is drafted by what has changed from row to row', async () => {
    const texts = [HEAD, ...ROWS].map((row) => row.join(';'));
    const { yaml } = drafted(texts);
    expect(yaml).toContain("states: ['mount', 'guider', 'camera', 'wheel']");
    const { events } = await read(yaml, texts.join('\n'));
    const times = (event: string): number => events.filter((one) => one.event === event).length;
    expect(events.slice(0, 5).map(({ event }) => event)).toEqual([
      'slew-begin',
      'slew-end',
      'guiding-begin',
      'settling-begin',
      'settling-end',
    ]);
    for (const event of ['exposure-begin', 'exposure-end', 'dither-begin', 'dither-end']) expect(times(event)).toBe(10);
    expect([times('settling-end'), times('filter-begin'), times('filter-end')]).toEqual([11, 3, 3]);
  });
});

describe('records that show the states of all devices', () => {
  it('may hold guiding samples, whatever else they tell', async () => {
    const samples = ROWS.map((row, i) => ({
      at: row[0] ?? '',
      ra: Number((0.5 * Math.sin(1.7 * i)).toFixed(2)),
      dec: Number((0.4 * Math.cos(2.3 * i)).toFixed(2)),
    }));
    // Every second record has one.
    const lines = ROWS.map(([when, mount, guider, camera, wheel], i) => {
      const { ra, dec } = samples[i] ?? {};
      return JSON.stringify({ when, mount, guider, camera, wheel, ...(i % 2 === 0 ? { errors: { ra, dec } } : {}) });
    });
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
    expect(log.events.filter(({ event }) => event === 'exposure-begin')).toHaveLength(10);
    const taken = samples.filter((_, i) => i % 2 === 0);
    expect([...(log.guiding?.atMs ?? [])]).toEqual(taken.map(({ at: when }) => Date.parse(when)));
    expect([...(log.guiding?.raArcsec ?? [])].map((ra) => Number(ra.toFixed(2)))).toEqual(taken.map(({ ra }) => ra));
    expect([...(log.guiding?.decArcsec ?? [])].map((dec) => Number(dec.toFixed(2)))).toEqual(
      taken.map(({ dec }) => dec),
    );
  });
});

describe('blocks of a line or two that show the states of all devices', () => {
  it('have several of them on a line', async () => {
    const blocks = ROWS.flatMap(([when, mount, guider, camera, wheel]) => [
      `== ${when}`,
      `  mount: ${mount}; guider: ${guider}; roof: open`,
      `  camera: ${camera}; wheel: ${wheel}`,
    ]);
    const { yaml } = drafted(blocks);
    expect(yaml).toContain("states: ['mount', 'guider', 'camera', 'wheel']");
    const log = await read(yaml, `${blocks.join('\n')}\n`);
    const times = (name: string) => log.events.filter(({ event }) => event === name).length;
    expect(['exposure-begin', 'exposure-end', 'dither-begin', 'dither-end'].map(times)).toEqual([10, 10, 10, 10]);
  });
});

describe('states in a dialect', () => {
  const DIALECT = `
dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
csv: { delimiter: ",", header: [at, camera, mount], time: at }
states: [camera, mount]
lines:
  - { when: { changed: ^mount$, now: ^slewing$ }, event: slew-begin }
  - { when: { changed: ^mount$, was: ^slewing$ }, event: slew-end }
  - { when: { changed: ^camera$, now: '^open (?<seconds>\\d+)' }, event: exposure-begin, fields: { target: "{object}" } }
  - { when: { changed: ^camera$, was: ^open }, event: exposure-end }
`;

  it('are rows of their own wherever one has changed, two at once as well', async () => {
    const log = await read(
      DIALECT.replace('mount], time', 'mount, object], time'),
      [
        'at,camera,mount,object',
        '21:00:00,rests,tracks,',
        '21:00:05,rests,tracks,',
        '21:00:10,open 300 s,slewing,M 33',
        '21:05:10,rests,tracks,',
      ].join('\n'),
      { sessionDate: '2026-10-14' },
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:00:10.000Z exposure-begin {"target":"M 33","seconds":300}',
      '2026-10-14T21:00:10.000Z slew-begin',
      '2026-10-14T21:05:10.000Z exposure-end',
      '2026-10-14T21:05:10.000Z slew-end',
    ]);
    expect(log.warnings).toEqual([]);
  });

  it('need rows or records, and columns that are there', () => {
    const wrong = (from: string, to: string): string =>
      loadDialect('d.yaml', DIALECT.replace(from, to))
        .warnings.map(({ message }) => message)
        .join();
    expect(wrong('states: [camera', 'states: [camra')).toMatch(/no column "camra".*camera/);
    expect(wrong(/csv:.*/.exec(DIALECT)?.[0] ?? '', '')).toMatch(/"csv" or "records"/);
  });

  it('may hold values of tens of thousands of characters without a blank or a digit', () => {
    const lines = Array.from({ length: 40 }, (_, i) =>
      JSON.stringify({ t: `04:${String(i).padStart(2, '0')}:12`, d: '2026-10-15', v: 'ab.c'.repeat(7500) }),
    );
    expect(drafted(lines, 'night.jsonl').report.linesSeen).toBe(40);
  });
});
