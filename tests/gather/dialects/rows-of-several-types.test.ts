import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { clock, eventsRead, inOrder, moves, shotEvents, SHOTS, filterOf, iso } from './support/night-of-tables.js';
import { brief, codes, read } from './support/read.js';

/** Rows of each type: when they were written, and their cells behind the code. */
const ROWS: readonly (readonly [at: number, code: string, ...cells: string[]])[] = [
  ...SHOTS.flatMap((shot): (readonly [number, string, ...string[]])[] => {
    const { train, atS, seconds, cutS, file } = shot;
    const about = [train, filterOf(shot), String(seconds)];
    const endS = atS + (cutS ?? seconds);
    return [
      [atS, 'EXP', clock(atS), ...about, 'open'],
      [endS, 'EXP', clock(endS), ...about, cutS === undefined ? 'closed' : 'aborted'],
      ...(cutS === undefined ? [[endS + 2, 'SAV', clock(endS + 2), train, file] as const] : []),
    ];
  }),
  ...moves.flatMap(({ atS, pixels, calmS }): (readonly [number, string, ...string[]])[] => [
    [atS, 'DIT', clock(atS), 'dither', pixels.replace(',', '.')],
    [calmS, 'DIT', clock(calmS), 'settled', ''],
  ]),
];
const NAMES: Readonly<Record<string, readonly string[]>> = {
  EXP: ['clock', 'train', 'filter', 'seconds', 'shutter'],
  SAV: ['clock', 'train', 'file'],
  DIT: ['clock', 'what', 'pixels'],
};
const EXPLAINED: Readonly<Record<string, string>> = { E: 'exposure', S: 'frame saved', D: 'dither' };

/** What draws up the lines of names, and the rows where they are not just the code and the cells. */
interface Style {
  readonly mark: string;
  readonly names: (code: string, names: readonly string[]) => string;
  readonly codeOf?: (code: string) => string;
  readonly isStampFirst?: true;
}

const STYLES: Readonly<Record<string, Style>> = {
  'by lines with a mark in front': { mark: ',', names: (code, names) => ['R', code, ...names].join(',') },
  'by lines that begin with a hash': { mark: ';', names: (code, names) => [`#${code}`, ...names].join(';') },
  'by remarks': {
    mark: ',',
    names: (code, names) => `# ${code} ${EXPLAINED[code] ?? ''}: ${names.join(', ')}`,
    codeOf: (code) => code.slice(0, 1),
  },
  'by a row of names for each': { mark: '\t', names: (code, names) => [code, ...names].join('\t') },
  'behind the time': { mark: ',', names: (code, names) => ['R', code, ...names].join(','), isStampFirst: true },
};

describe('rows of several types that take turns', () => {
  it.each(Object.entries(STYLES))('are drafted with their fields named %s', async (_, style) => {
    const { mark, names, codeOf = (code) => code, isStampFirst } = style;
    const rows = inOrder(
      ROWS.map(([at, code, first, ...cells]) => [
        at,
        (isStampFirst ? [first, codeOf(code), ...cells] : [codeOf(code), first, ...cells]).join(mark),
      ]),
    );
    const log = [
      'night of 2026-01-16, times in UTC',
      ...Object.entries(NAMES).map(([code, own]) => names(codeOf(code), own)),
      ...rows,
    ];
    const events = await eventsRead(log);
    const saved = SHOTS.filter(({ cutS }) => cutS === undefined);
    expect(events.filter((event) => !/settling-begin|dither-end/.test(event)).sort(), drafted(log).yaml).toEqual(
      [
        ...shotEvents,
        ...saved.map(({ train, atS, seconds }) => `${iso(atS + seconds + 2)} frame-saved ${train}`),
        ...moves.flatMap(({ atS, calmS }) => [`${iso(atS)} dither-begin`, `${iso(calmS)} settling-end`]),
      ].sort(),
    );
  });

  const DIALECT = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", date: session, zone: utc }
csv:
  - { name: E, rows: "^E,", delimiter: ",", columns: [row, clock, train, edge], time: clock }
  - { name: M, rows: "^M,", delimiter: ",", columns: [row, from, act, edge], time: from }
lines:
  - { when: { table: "^E$", edge: open }, event: exposure-begin, train: "{train}" }
  - { when: { act: slew, edge: start }, event: slew-begin }
  - { when: { act: slew, edge: done }, event: slew-end }
`;

  it('are read by their patterns, on one clock beyond midnight; other lines are no rows', async () => {
    const log = ['M,23:58:00,slew,start', 'E,23:59:00,heron,open', 'odd,00:00:10,slew,done', 'M,00:01:00,slew,done'];
    const night = await read(DIALECT, `${log.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-10-14' });
    expect(brief(night)).toEqual([
      '2026-10-14T23:58:00.000Z slew-begin',
      '2026-10-14T23:59:00.000Z exposure-begin heron',
      '2026-10-15T00:01:00.000Z slew-end',
    ]);
    expect(codes(night)).toEqual([]);
  });

  it('have their columns named by the dialect: a header row beside them is refused', () => {
    const { dialect, warnings } = loadDialect(
      'rows.yaml',
      DIALECT.replace('columns: [row, clock', 'header: [row, clock'),
    );
    expect(dialect).toBeNull();
    expect(warnings.map(({ message }) => message).join('\n')).toMatch(/"rows" has neither "header" nor "below"/);
  });

  it('may have one row of names, and a sentence in some where others have numbers', async () => {
    const from = Date.UTC(2026, 10, 20, 18);
    const rows = Array.from({ length: 30 }, (_, i) => {
      const s = (after: number): string => (i * 300 + after).toFixed(1);
      return [
        `${s(1)}\tevent\tdither, moving 3.${i % 10} px`,
        `${s(4)}\tevent\tdither move done`,
        ...[20, 80, 140, 200, 260].map(
          (after, k) =>
            `${s(after)}\tread\t${['+0.13', '-0.21', '-0.05', '+0.31', '-0.17'][k]}\t${i % 2 === 0 ? '-' : '+'}0.1${i % 9}\t2950`,
        ),
        ...(i % 9 === 0 ? [`${s(290)}\tinfo\tair 1${i % 7}.0`] : []),
      ];
    }).flat();
    const lines = ['# switched on\t20 Nov 2026\t18:00:00\tUTC', 'since_on\tkind\tra_px\tdec_px\tbrightness', ...rows];
    const { yaml } = drafted(lines, 'box.tsv');
    const { events, guiding } = await read(yaml, `${lines.join('\n')}\n`, { name: 'box.tsv' });
    const begins = events.flatMap(({ event, atMs }) => (event === 'dither-begin' ? [(atMs - from) / 1000] : []));
    expect(begins, yaml).toEqual(Array.from({ length: 30 }, (_, i) => i * 300 + 1));
    expect(guiding?.atMs).toHaveLength(150);
  });
});
