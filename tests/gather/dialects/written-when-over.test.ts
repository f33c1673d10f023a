import { describe, expect, it } from 'vitest';
import { sqlRows } from '../../../src/gather/dialects/document/sql-rows.js';
import type { LogEvent } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

// Logs that are written when something is over, and headings that differ from the others: all invented.

const pad = (n: number): string => String(n).padStart(2, '0');
const clock24 = (at: Date): string => `${pad(at.getUTCHours())}:${pad(at.getUTCMinutes())}:${pad(at.getUTCSeconds())}`;
const clock12 = (at: Date): string =>
  `${at.getUTCHours() % 12 || 12}:${pad(at.getUTCMinutes())}:${pad(at.getUTCSeconds())} ${at.getUTCHours() < 12 ? 'AM' : 'PM'}`;
const day = (at: Date): string => `${at.getUTCDate()} Oct ${at.getUTCFullYear()}`;
const startMs = Date.UTC(2026, 9, 14, 20, 30, 11);
const names = (events: readonly LogEvent[], name: string): number =>
  events.filter(({ event }) => event === name).length;

/** Words of blocks: an exposure and its lines, a dither and its line. */
const WORDS = {
  English: { shot: 'exposure', filter: 'filter', ended: 'ended', saved: 'saved', moved: 'dither', calm: 'settling' },
  German: {
    shot: 'Belichtung',
    filter: 'Filter',
    ended: 'Ende',
    saved: 'gespeichert',
    moved: 'Dither',
    calm: 'Beruhigung',
  },
  Spanish: {
    shot: 'exposición',
    filter: 'filtro',
    ended: 'fin',
    saved: 'guardado',
    moved: 'dither',
    calm: 'estabilización',
  },
} as const;

function blocks(words: (typeof WORDS)[keyof typeof WORDS], clock: (at: Date) => string): string[] {
  const lines = ['night book, all times in UTC', ''];
  let atMs = startMs;
  const head = (text: string): void => void lines.push(`[${day(new Date(atMs))}, ${clock(new Date(atMs))}] ${text}`);
  const after = (seconds: number): string => clock(new Date((atMs += seconds * 1000)));
  for (let n = 1; n <= 12; n++) {
    // Long rests carry a few blocks past midnight.
    atMs += 900_000;
    head(`${words.shot} M 33`);
    lines.push(`    ${words.filter} Ha, 300 s`, `    ${words.ended} ${after(301)}`);
    lines.push(`    ${words.saved} ${after(3)}: m33-ha-${String(n).padStart(4, '0')}.fits`, '');
    if (n % 2 === 1) continue;
    head(`${words.moved}, 4.${n % 10} px`);
    lines.push(`    ${words.ended} ${after(3)}`, '');
    head(words.calm);
    lines.push(`    ${words.ended} ${after(14)}`, '');
  }
  return lines;
}

describe('blocks with date and time in front, and times of day alone in their lines', () => {
  it.each(
    Object.entries(WORDS).map(
      ([language, words], i) =>
        [
          `${language}, ${i % 2 === 0 ? '24 hours' : 'halves of the day'}`,
          words,
          i % 2 === 0 ? clock24 : clock12,
        ] as const,
    ),
  )('are read past midnight: %s', async (_, words, clock) => {
    const lines = blocks(words, clock);
    const { events } = await read(drafted(lines).yaml, lines.join('\n'));
    for (const name of ['exposure-begin', 'exposure-end', 'frame-saved'] as const)
      expect(names(events, name), name).toBe(12);
    for (const name of ['dither-begin', 'settling-begin', 'settling-end'] as const)
      expect(names(events, name), name).toBe(6);
    const ends = events.filter(({ event }) => event === 'exposure-end');
    expect(ends[0]?.atMs).toBe(startMs + 1_201_000);
    expect(ends.at(-1)?.atMs).toBeGreaterThan(Date.UTC(2026, 9, 14, 23, 0));
  });
});

describe('headings with the hour, one of which has the new date as well', () => {
  it('are the base of the minutes below each of them', async () => {
    const lines = ['# Night of 14 to 15 October 2026, UTC', ''];
    let hour = -1;
    for (let n = 0; n < 16; n++) {
      const at = new Date(startMs + n * 930_000);
      if (at.getUTCHours() !== hour) {
        hour = at.getUTCHours();
        lines.push(hour === 0 ? '## 0 h (15 October)' : `## ${hour} h`);
      }
      lines.push(`| ${clock24(at).slice(3)} | exposure begins, 300 s, Ha |`);
      const end = new Date(at.getTime() + 300_000);
      if (end.getUTCHours() !== hour) {
        hour = end.getUTCHours();
        lines.push(hour === 0 ? '## 0 h (15 October)' : `## ${hour} h`);
      }
      lines.push(`| ${clock24(end).slice(3)} | exposure ends |`);
    }
    const { events } = await read(drafted(lines).yaml, lines.join('\n'));
    const begins = events.filter(({ event }) => event === 'exposure-begin');
    expect(begins.map(({ atMs }) => atMs)).toEqual(Array.from({ length: 16 }, (_, n) => startMs + n * 930_000));
  });
});

describe('lookup tables of a dump', () => {
  const dump = (kinds: string): string =>
    [
      "CREATE TABLE treni (id INTEGER PRIMARY KEY, nome TEXT); INSERT INTO treni VALUES (1, 'heron'), (2, 'wren');",
      `CREATE TABLE generi (codice INTEGER, etichetta TEXT, uso TEXT); INSERT INTO generi VALUES ${kinds};`,
      'CREATE TABLE diario (unix INTEGER, treno INTEGER, genere INTEGER);',
      'INSERT INTO diario VALUES (1796319635, 1, 10), (1796319935, 1, 11), (1796319940, 0, 10);',
    ].join('\n');

  it('are found by the noun in the plural, with a description beside each name', () => {
    const rows = sqlRows(dump("(10, 'posa iniziata', 'numero = secondi'), (11, 'posa finita', '')")) ?? [];
    expect(rows.slice(-3)).toEqual([
      '1796319635\theron\tposa iniziata',
      '1796319935\theron\tposa finita',
      '1796319940\t0\tposa iniziata',
    ]);
  });

  it('are none where a number is not in them, or a name stands for two', () => {
    const unlisted = sqlRows(dump("(10, 'posa iniziata', ''), (12, 'posa finita', '')")) ?? [];
    expect(unlisted).toContain('1796319935\theron\t11');
    const twice = sqlRows(dump("(10, 'posa', 'inizio'), (11, 'posa', 'fine')")) ?? [];
    expect(twice).toContain('1796319635\theron\t10');
  });
});

describe('what a document has of a file inside its exposure', () => {
  it('is a saved frame, not the beginning of the next', async () => {
    const iso = (ms: number): string => new Date(ms).toISOString().replace('.000', '');
    const shots = Array.from({ length: 8 }, (_, n) => {
      const fromMs = startMs + n * 304_000;
      return `<exposure object="NGC 281" filter="Ha" seconds="300" from="${iso(fromMs)}" to="${iso(fromMs + 300_000)}"><written at="${iso(fromMs + 302_000)}">n${n}.fits</written></exposure>`;
    });
    const text = `<?xml version="1.0"?>\n<night>\n<train name="heron">\n${shots.join('\n')}\n</train>\n</night>\n`;
    const { draftDialect, readSample } = await import('../../../src/gather/dialects/index.js');
    const { withLog } = await import('../lines/support/temp-log.js');
    const yaml = await withLog(
      text,
      async (root, file) => draftDialect(await readSample(root, file)).yaml,
      'night.xml',
    );
    const said = brief(await read(yaml, text, { name: 'night.xml' }));
    expect(said.filter((line) => line.includes(' exposure-begin ')).length).toBe(8);
    expect(said.filter((line) => line.includes(' frame-saved ')).length).toBe(8);
  });
});
