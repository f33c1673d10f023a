import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const EVENING_MS = Date.UTC(2026, 9, 14, 19);
const stamp = (s: number): string => new Date(EVENING_MS + s * 1000).toISOString();
const clock = (s: number): string => stamp(s).slice(11, 19);

interface Words {
  readonly head: readonly string[];
  readonly frame: readonly [string, string, string];
  readonly dither: readonly [string, string];
  readonly cooling: string;
}
const SPANISH: Words = {
  head: ['hora', 'suceso', 'valor'],
  frame: ['exposición empieza', 'exposición termina', 'archivo guardado'],
  dither: ['desplazamiento empieza', 'desplazamiento termina'],
  cooling: 'refrigeración, medida',
};
const GERMAN: Words = {
  head: ['Uhrzeit', 'Vorgang', 'Wert'],
  frame: ['Aufnahme beginnt', 'Aufnahme fertig', 'Datei gespeichert'],
  dither: ['Versatz beginnt', 'Versatz fertig'],
  cooling: 'Kühlung, gemessen',
};

/** One object after the other beyond midnight: seconds after 19:00, what happened, and its value. */
function rowsOf({ frame, dither }: Words, from: number, count: number): (readonly [number, string, string])[] {
  return Array.from({ length: count }, (_, i) => {
    const at = from + i * 330;
    const [begins, ends, saved] = frame;
    return [
      [at, begins, '300 s'],
      [at + 300, ends, ''],
      [at + 303, saved, `f_${String(from)}_${String(i)}.fits`],
      ...(i % 3 === 2
        ? ([
            [at + 306, dither[0], '2,5 px'],
            [at + 314, dither[1], ''],
          ] as const)
        : []),
    ] as (readonly [number, string, string])[];
  }).flat();
}

describe('tables of events with the same columns, each below the heading of an object', () => {
  it.each([
    ['bars', SPANISH, '|', (cells: readonly string[]) => `| ${cells.join(' | ')} |`, 'Preparativos'],
    ['semicolons', GERMAN, ';', (cells: readonly string[]) => cells.join(';'), 'Vorbereitung'],
  ] as const)('are one that goes on: %s', async (_, words, _delimiter, rowOf, first) => {
    const table = (heading: string, rows: readonly (readonly [number, string, string])[]): string[] => [
      '',
      `## ${heading}`,
      '',
      rowOf(words.head),
      ...rows.map(([at, what, value]) => rowOf([clock(at), what, value])),
    ];
    const cold = [0, 90, 200, 310].map((at, i) => [at, words.cooling, `${String(4 - 5 * i)},5 °C`] as const);
    const later = [[19_000, words.cooling, '-10,5 °C'] as const];
    const blocks = [rowsOf(words, 900, 20), rowsOf(words, 8000, 12), rowsOf(words, 13_000, 17)];
    const lines = [
      '# Cierzo Hill, heron, 2026-10-14',
      ...table(first, cold),
      ...table('M 31', [...(blocks[0] ?? [])]),
      ...table('NGC 891', blocks[1] ?? []),
      '',
      'El programa se cayó y empezó otra vez a las once.',
      rowOf(words.head),
      ...[...(blocks[2] ?? []), ...later].map(([at, what, value]) => rowOf([clock(at), what, value])),
    ];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-10-14' });
    const found = (event: string): string[] =>
      log.events.filter((one) => one.event === event).map(({ atMs }) => new Date(atMs).toISOString());
    const all = [...cold, ...blocks.flat(), ...later];
    for (const [event, said] of [
      ['exposure-begin', words.frame[0]],
      ['exposure-end', words.frame[1]],
      ['frame-saved', words.frame[2]],
      ['dither-begin', words.dither[0]],
      ['dither-end', words.dither[1]],
      ['cooler', words.cooling],
    ] as const)
      expect(found(event), event + yaml).toEqual(all.filter(([, what]) => what === said).map(([at]) => stamp(at)));
  });
});

const TWINS = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
csv:
  - { name: heron, delimiter: ";", header: [at, what], below: "^heron$", time: at }
  - { name: wren, delimiter: ";", header: [at, what], below: "^wren$", time: at }
OTHERS
lines:
  - { when: { what: "." }, event: note, train: "{table}" }
`;
const PAGES = `heron
at;what
20:00:00;a
wren
at;what
20:01:00;b
page 2
at;what
20:02:00;c
`;

describe('a header row without a heading of its own', () => {
  const trains = async (others: string): Promise<(string | undefined)[]> =>
    (await read(TWINS.replace('OTHERS\n', others), PAGES, { sessionDate: '2026-10-14' })).events.map(
      ({ train }) => train,
    );
  it('goes on with the table above, as on a new page', async () => {
    expect(await trains('')).toEqual(['heron', 'wren', 'wren']);
  });
  it('begins the table that needs no heading', async () => {
    expect(await trains('  - { name: both, delimiter: ";", header: [at, what], time: at }\n')).toEqual([
      'heron',
      'wren',
      'both',
    ]);
  });
});
