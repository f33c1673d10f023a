import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 0, 0);
const clock = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(11, 19);

/** Exposures of two trains that overlap: what each is of stands in one cell, apart by semicolons. */
const ROWS = Array.from({ length: 20 }, (_, i) => [
  { at: i * 400, who: 'heron', act: 'exposure begins', note: 'NGC 281; Ha; 300 s' },
  { at: i * 400 + 300, who: 'heron', act: 'exposure ends', note: '' },
  { at: i * 400 + 5, who: 'wren', act: 'exposure begins', note: 'NGC 281; L; 180 s' },
  { at: i * 400 + 185, who: 'wren', act: 'exposure ends', note: '' },
])
  .flat()
  .sort((a, b) => a.at - b.at);

describe('a cell with an object in front of other values', () => {
  it('tells these as well, and by them the trains', async () => {
    const lines = [
      'date\tclock (UTC)\tpart\tact\tnote',
      ...ROWS.map(({ at, who, act, note }) => `2026-10-14\t${clock(at)}\t${who}\t${act}\t${note}`),
    ];
    const { yaml } = drafted(lines, 'night.tsv');
    const { events } = await read(yaml, `${lines.join('\n')}\n`);
    for (const [event, act] of [
      ['exposure-begin', 'exposure begins'],
      ['exposure-end', 'exposure ends'],
    ] as const) {
      const found = events.filter((one) => one.event === event).map(({ atMs }) => (atMs - T0) / 1000);
      expect(found, yaml).toEqual(ROWS.filter((row) => row.act === act).map(({ at }) => at));
    }
    expect(events.find(({ event }) => event === 'exposure-begin')).toMatchObject({
      target: 'NGC 281',
      filter: 'Ha',
      seconds: 300,
    });
  });
});
