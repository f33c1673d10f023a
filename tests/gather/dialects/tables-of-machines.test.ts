import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const EVENING_MS = Date.UTC(2026, 9, 14, 19);
const DATE = '2026-10-14';
const clock = (s: number): string => new Date(EVENING_MS + s * 1000).toISOString().slice(11, 19);

interface Step {
  readonly event: string;
  readonly train: string;
  readonly begin: number;
  readonly end: number;
  readonly filter?: string;
}

/** Exposures of 240 s, three to a dither with its settling, and a turn of the wheel now and then. */
const STEPS: readonly Step[] = Array.from({ length: 27 }, (_, n): Step[] => {
  const begin = 600 + n * 246 + Math.floor(n / 3) * 40;
  const end = begin + 240;
  const filter = n < 9 ? 'L' : n < 18 ? 'Ha' : 'OIII';
  return [
    ...(n % 9 === 0 ? [{ event: 'filter', train: 'heron', begin: begin - 9, end: begin - 4, filter }] : []),
    { event: 'exposure', train: 'heron', begin, end, filter },
    ...(n % 3 === 2
      ? [
          { event: 'dither', train: 'both', begin: end + 2, end: end + 5 },
          { event: 'settling', train: 'both', begin: end + 5, end: end + 20 + n },
        ]
      : []),
  ];
}).flat();

async function eventsOf(log: readonly string[]): Promise<{ yaml: string; got: string[] }> {
  const { yaml } = drafted([...log]);
  const got = brief(await read(yaml, `${log.join('\n')}\n`, { zone: 'UTC', sessionDate: DATE }));
  return { yaml, got: got.map((one) => one.slice(11).replace(/\.000Z| (?:heron|wren|both)\b.*| \{.*/g, '')).sort() };
}

const expectedOf = (steps: readonly Step[]): string[] =>
  steps.flatMap(({ event, begin, end }) => [`${clock(begin)} ${event}-begin`, `${clock(end)} ${event}-end`]).sort();

describe('tables that machines write', () => {
  it('count from the start of a job where they state as well when it was asked for', async () => {
    const tasks: Record<string, string> = {
      filter: 'wheel',
      exposure: 'expose',
      dither: 'nudge',
      settling: 'settle',
      wait: 'await nudge',
    };
    // The other train waits for each dither: its end is the dither, and no event of its own.
    const waits = STEPS.filter(({ event }) => event === 'dither').map(
      ({ begin }): Step => ({ event: 'wait', train: 'wren', begin: begin - 150, end: begin }),
    );
    const rows = [...STEPS, ...waits]
      .sort((a, b) => a.begin - b.begin)
      .map(({ event, train, begin, end, filter = '' }, i) => {
        const asked = begin - (event === 'exposure' ? 50 : 1);
        const times = [asked, begin, end].map((s) => `${DATE} ${clock(s)}`);
        return [7000 + i, train, tasks[event], filter, ...times, 'done'].join(',');
      });
    const { yaml, got } = await eventsOf([
      'job,for,task,filter,asked,started,stopped,state',
      ...rows,
      // It never ran.
      `7900,heron,expose,OIII,${DATE} ${clock(9000)},,,dropped`,
    ]);
    expect(got, yaml).toEqual(
      [...expectedOf(STEPS), ...waits.map(({ begin }) => `${clock(begin)} dither-ready`)].sort(),
    );
  });

  it('have borders and repeated heads, lengths of some rows, and one temperature of the cooler', async () => {
    const border = '|-----|-------|---------------|----------|--------|--------|----------------|';
    const head = '| no  | train | step          | begin    | length | filter | outcome        |';
    const steps: Record<string, string> = { filter: 'filter change' };
    const rowOf = (cells: readonly string[]): string =>
      `| ${cells.map((cell, i) => cell.padEnd([3, 5, 13, 8, 6, 6, 14][i] ?? 0)).join(' | ')} |`;
    const cooling = Array.from({ length: 8 }, (_, n) => ({ at: n * 60, celsius: (6 - 3 * n).toFixed(1) }));
    const rows = [
      ...cooling.map(({ at, celsius }) => ['heron', 'cooler', clock(at), '', '', `sensor ${celsius} C`]),
      ...STEPS.map(({ event, train, begin, end, filter = '' }) => {
        const length = `${Math.floor((end - begin) / 60)}:${String((end - begin) % 60).padStart(2, '0')}`;
        return [train, steps[event] ?? event, clock(begin), length, filter, 'ok'];
      }),
    ].map((cells, i) => rowOf([String(i + 1), ...cells]));
    const pages = [rows.slice(0, 30), rows.slice(30)];
    const { yaml, got } = await eventsOf([
      `Diary of ${DATE}, times in UTC`,
      '',
      ...pages.flatMap((page) => [border, head, border, ...page]),
      border,
    ]);
    expect(got, yaml).toEqual([...expectedOf(STEPS), ...cooling.map(({ at }) => `${clock(at)} cooler`)].sort());
  });

  it('number their rows in a column before the time, with cells set apart by tabs', async () => {
    const paso: Record<string, string> = {
      filter: 'giro de la rueda',
      exposure: 'exposición',
      dither: 'desplazamiento',
      settling: 'estabilización',
    };
    const { yaml, got } = await eventsOf([
      ['N.º', 'Desde', 'Hasta', 'Quién', 'Paso', 'Datos', 'Resultado'].join('\t'),
      ...STEPS.map(({ event, train, begin, end, filter = '' }, i) =>
        [i + 1, `${DATE} ${clock(begin)}`, clock(end), train, paso[event], filter, 'bien'].join('\t'),
      ),
    ]);
    expect(got, yaml).toEqual(expectedOf(STEPS));
  });

  it('have points between the digits of large numbers beside decimal commas', async () => {
    const exposures = STEPS.filter(({ event }) => event === 'exposure');
    const moves = STEPS.filter(({ event }) => event === 'dither');
    const quoted = (cells: readonly (string | number)[]): string => cells.map((cell) => `"${cell}"`).join(',');
    const grouped = (count: number): string => `${Math.floor(count / 1000)}.${String(count % 1000).padStart(3, '0')}`;
    const { yaml, got } = await eventsOf([
      '"Id","Data","Início","Duração (ms)","Conjunto","Alvo","Filtro","Ficheiro"',
      ...exposures.map(({ begin, end, filter = '' }, i) =>
        quoted([
          grouped(4180 + i),
          '14/10/2026',
          clock(begin),
          grouped((end - begin) * 1000),
          'heron',
          'IC 443',
          filter,
          `h${i}.fits`,
        ]),
      ),
      '',
      '"Id","Data","Hora","Conjunto","Ocorrência","Distância (px)"',
      ...moves.flatMap(({ begin, end }, i) => [
        quoted([grouped(1000 + 2 * i), '14/10/2026', clock(begin), 'heron', 'dither iniciado', `2,${i}`]),
        quoted([grouped(1001 + 2 * i), '14/10/2026', clock(end), 'heron', 'dither concluído', '']),
      ]),
    ]);
    expect(got, yaml).toEqual(expectedOf([...exposures, ...moves]));
  });
});
