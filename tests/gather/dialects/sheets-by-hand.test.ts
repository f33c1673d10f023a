import { describe, expect, it } from 'vitest';
import { htmlRows } from '../../../src/gather/dialects/document/html-rows.js';
import { drafted } from './support/drafted.js';
import {
  EXPOSURES,
  SHOTS,
  clock,
  filterOf,
  inOrder,
  iso,
  moves,
  only,
  shotEvents,
  eventsRead,
} from './support/night-of-tables.js';
import { brief, read } from './support/read.js';

const EVENTS = /exposure|dither|settling/;
const half = (s: number): string => {
  const [hours = '', minutes = '', seconds = ''] = clock(s).split(':');
  const hour = Number(hours) % 12;
  return `${hour === 0 ? 12 : hour}:${minutes}:${seconds} ${Number(hours) < 12 ? 'AM' : 'PM'}`;
};
const spelt = (seconds: number): string => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;

describe('columns of minutes and seconds', () => {
  const steps = [
    ...SHOTS.map((shot) => ({ ...shot, what: 'exposure', s: shot.cutS ?? shot.seconds })),
    ...moves.flatMap(({ atS, calmS }) => [
      { what: 'dither', train: '', atS, s: 12, file: '' },
      { what: 'settling', train: '', atS: atS + 12, s: calmS - atS - 12, file: '' },
    ]),
  ];
  const expected = [
    ...SHOTS.flatMap(({ train, atS, seconds, cutS }) => [
      `${iso(atS)} exposure-begin ${train}`,
      `${iso(atS + (cutS ?? seconds))} exposure-end ${train}`,
    ]),
    ...moves.flatMap(({ atS, calmS }) => [
      `${iso(atS)} dither-begin`,
      `${iso(atS + 12)} dither-end`,
      `${iso(atS + 12)} settling-begin`,
      `${iso(calmS)} settling-end`,
    ]),
  ].sort();
  const asEnds = (lines: readonly string[]): string[] => lines.map((line) => line.replace('abort', 'end')).sort();

  it('are lengths, though the night is so long that times of day like them come near', async () => {
    const rows = inOrder(
      steps.map(({ what, train, atS, s, file }) => [atS, `${half(atS)},${spelt(s)},${train},${what},${file}`]),
    );
    const lines = ['Cierzo Hill,,16 January 2026,,', 'Begin,Length,Camera,Job,File', ...rows];
    expect(asEnds(only(await eventsRead(lines), EVENTS))).toEqual(expected);
  });

  it('are so in Polish, behind semicolons and in another order', async () => {
    const words = { exposure: 'ekspozycja', dither: 'przesunięcie', settling: 'uspokojenie' } as Record<string, string>;
    const rows = inOrder(
      steps.map(({ what, train, atS, s, file }) => [atS, `${train};${words[what]};${clock(atS)};${file};${spelt(s)}`]),
    );
    const lines = ['Cierzo Hill;noc 16 stycznia 2026;;;', 'kamera;czynność;początek;plik;czas trwania', ...rows];
    expect(asEnds(only(await eventsRead(lines), EVENTS))).toEqual(expected);
  });
});

describe('clocks of a hand', () => {
  const ends = SHOTS.map(({ atS, cutS, seconds }) => atS + (cutS ?? seconds));
  const uncut = SHOTS.filter(({ cutS }) => cutS === undefined);

  it.each([
    ['points for colons', (s: number) => clock(s).replaceAll(':', '.')],
    ['an h for the first of them', (s: number) => clock(s).replace(':', 'h').replace(':', 'm')],
  ])('have now and then %s', async (_, other) => {
    const odd = (s: number, i: number): string => (i % 17 === 5 ? other(s) : clock(s));
    const lines = [
      'Cierzo Hill\t16. Januar 2026',
      'Kamera\tauf\tzu\tFilter\tDatei',
      ...SHOTS.map(
        (shot, i) => `${shot.train}\t${odd(shot.atS, i)}\t${odd(ends[i] ?? 0, i + 3)}\t${filterOf(shot)}\t${shot.file}`,
      ),
    ];
    const found = only(await eventsRead(lines), EXPOSURES).map((line) => line.replace('abort', 'end'));
    expect(found.sort()).toEqual(shotEvents.map((line) => line.replace('abort', 'end')).sort());
  });

  it('leave out when a shutter closed: it was open as long as the row says', async () => {
    const lines = [
      'Cierzo Hill;16 janvier 2026;;;;',
      'caméra;ouvert;fermé;pose (s);filtre;fichier',
      ...uncut.map((shot, i) => {
        const shut = i % 9 === 4 ? ['', '?'][i % 2] : clock(shot.atS + 300);
        return `${shot.train};${clock(shot.atS)};${shut};300;${filterOf(shot)};${shot.file}`;
      }),
    ];
    const expected = uncut.flatMap(({ train, atS }) => [
      `${iso(atS)} exposure-begin ${train}`,
      `${iso(atS + 300)} exposure-end ${train}`,
    ]);
    expect(only(await eventsRead(lines), EXPOSURES)).toEqual(expected.sort());
  });

  it('end where the time of the end can be read, and after so long where it cannot', async () => {
    const yaml = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", date: session }
csv: { delimiter: ";", columns: [open, shut, seconds], time: open }
lines:
  - { when: { open: "." }, event: [exposure-begin, exposure-end], at: { exposure-end: shut }, lasts: seconds }
`;
    const log = '18:00:00;18:04:00;300\n18:10:00;?;300\n18:20:00;;300\n';
    expect(brief(await read(yaml, log, { zone: 'UTC', sessionDate: '2026-01-16' }))).toEqual([
      '2026-01-16T18:00:00.000Z exposure-begin',
      '2026-01-16T18:04:00.000Z exposure-end',
      '2026-01-16T18:10:00.000Z exposure-begin',
      '2026-01-16T18:15:00.000Z exposure-end',
      '2026-01-16T18:20:00.000Z exposure-begin',
      '2026-01-16T18:25:00.000Z exposure-end',
    ]);
  });
});

describe('the date of a sheet', () => {
  it('is not a time of day that is written as a date might be', () => {
    const rows = SHOTS.map((shot) => `${clock(shot.atS)};${shot.train};${filterOf(shot)};300;${shot.file}`);
    const lines = [
      'Nachtblad 16 op 17 januari 2026',
      '19.12.26;dit is geen rij',
      'begin;camera;filter;belichting (s);bestand',
      ...rows,
    ];
    expect(drafted(lines).yaml).toContain("pattern: '{day} op {number} {month-name} {year}'");
  });
});

describe('cells of a page that are merged', () => {
  const rows = (body: string): string[] =>
    (htmlRows(`<table>${body}</table>`) ?? []).map((row) => row.replaceAll('\t', '|'));

  it('hold for all of their rows', () => {
    const body =
      '<tr><th>object</th><th>open</th></tr><tr><td rowspan="3">M 1</td><td>19:15</td></tr>' +
      '<tr><td>19:18</td></tr><tr><td>19:22</td></tr><tr><td>M 2</td><td>19:26</td></tr>';
    expect(rows(body)).toEqual(['object|open', 'M 1|19:15', 'M 1|19:18', 'M 1|19:22', 'M 2|19:26']);
  });

  it('stand over groups of heads, and make their names with these', () => {
    const body =
      '<tr><th rowspan=2>object</th><th colspan="2">shutter</th><th rowspan=2>file</th></tr>' +
      '<tr><th>open</th><th>shut</th></tr><tr><td>M 1</td><td>19:15</td><td>19:18</td><td>a.fits</td></tr>' +
      '<tr><td>M 1</td><td>19:19</td><td>19:22</td><td>b.fits</td></tr>';
    expect(rows(body)).toEqual([
      'object|shutter open|shutter shut|file',
      'M 1|19:15|19:18|a.fits',
      'M 1|19:19|19:22|b.fits',
    ]);
  });

  it('are a line of text where one goes over all columns', () => {
    const body =
      '<tr><th>time</th><th>who</th><th>what</th></tr><tr><th colspan="3">Wednesday, 11 February 2026</th></tr>' +
      '<tr><td>21.04.11</td><td>wren</td><td>ready</td></tr>';
    expect(rows(body)).toEqual(['time|who|what', 'Wednesday, 11 February 2026', '21.04.11|wren|ready']);
  });

  it('end with their table, and with its rows', () => {
    const body =
      '<tr><td rowspan="9999">x</td><td>1</td></tr><tr><td>2</td></tr></table><table>' +
      '<tr><td>3</td><td>4</td></tr><tr><td colspan="2">5</td></tr>';
    expect(rows(body)).toEqual(['x|1', 'x|2', '3|4', '|5']);
  });
});
