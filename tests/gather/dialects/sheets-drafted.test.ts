import { describe, expect, it } from 'vitest';
import { sheetRows } from '../../../src/gather/dialects/sheet/sheet-rows.js';
import { drafted } from './support/drafted.js';
import {
  EXPOSURES,
  SHOTS,
  clock,
  filterOf,
  iso,
  moves,
  only,
  eventsRead,
  type Shot,
} from './support/night-of-tables.js';

const uncut = SHOTS.filter(({ cutS }) => cutS === undefined).slice(0, 80);
const exposures = uncut.flatMap(({ train, atS }) => [
  `${iso(atS)} exposure-begin ${train}`,
  `${iso(atS + 300)} exposure-end ${train}`,
]);
const of = (train: string): readonly Shot[] => uncut.filter((shot) => shot.train === train);
const dots = (s: number): string => clock(s).replaceAll(':', '.');

describe('tables that stand side by side', () => {
  const cells = (shot: Shot | undefined): string[] =>
    shot === undefined ? ['', '', '', ''] : [clock(shot.atS), clock(shot.atS + 300), filterOf(shot), '300'];
  const beside = of('heron').map((shot, i) => ({ atS: shot.atS, row: [...cells(shot), ...cells(of('wren')[i])] }));

  it.each([
    ['German', ';', ['Auf', 'Zu', 'Filter', 'Belichtung (s)'], 'Objekt', 'Montierung versetzt'],
    ['Italian, behind tabs', '\t', ['apre', 'chiude', 'filtro', 'posa (s)'], 'oggetto', 'spostamento della montatura'],
  ])('in %s are those of each train, with remarks between the rows', async (_, delimiter, names, object, moved) => {
    const width = 1 + 2 * names.length;
    const line = (row: readonly string[]): string => [...row, ...Array(width - row.length).fill('')].join(delimiter);
    const rows = [
      ...beside.map(({ atS, row }, i) => ({ atS, text: line([i === 0 ? 'M 42' : '', ...row]) })),
      ...moves.slice(0, 20).map(({ atS }) => ({ atS, text: line([`${moved} ${clock(atS)} - ${clock(atS + 12)}`]) })),
    ].sort((a, b) => a.atS - b.atS);
    const lines = [
      line(['Cierzo Hill, 16.01.2026']),
      line(['', 'heron', '', '', '', 'wren']),
      line([object, ...names, ...names]),
      ...rows.map(({ text }) => text),
    ];
    expect(drafted(lines).yaml).toContain('entries: sheet');
    const events = await eventsRead(lines);
    expect(only(events, EXPOSURES)).toEqual([...exposures].sort());
    expect(only(events, /dither/)).toEqual(
      moves.slice(0, 20).flatMap(({ atS }) => [`${iso(atS)} dither-begin`, `${iso(atS + 12)} dither-end`]),
    );
  });

  it('are none where a row has one table alone, or names do not come again', () => {
    const rows = Array.from({ length: 20 }, (_, i) => `19:${20 + i}:00;19:${20 + i}:30;L;;;`);
    expect(sheetRows(['begin;end;filter;begin;end;filter', ...rows])).toBeNull();
    expect(sheetRows(['begin;end;filter;opened;shut;wheel', ...rows])).toBeNull();
  });
});

describe('blocks in which a column is a frame', () => {
  const blocks = (train: string, size: number, names: readonly string[]): string[] =>
    Array.from({ length: Math.ceil(of(train).length / size) }, (_, i) =>
      of(train).slice(i * size, (i + 1) * size),
    ).flatMap((shots) => [
      [names[0], ...shots.map((__, k) => k + 1)].join(','),
      [names[1], 'M 42', ...shots.slice(1).map(() => '')].join(','),
      [names[2], ...shots.map(filterOf)].join(','),
      [names[3], ...shots.map(({ atS }) => dots(atS))].join(','),
      [names[4], ...shots.map(({ atS }) => dots(atS + 300))].join(','),
      '',
    ]);

  it.each([
    ['Danish', 'kamera', ['nr', 'objekt', 'filter', 'lukker åben', 'lukker lukket'], 5],
    ['Dutch', 'camera', ['nr', 'object', 'filter', 'sluiter open', 'sluiter dicht'], 8],
  ])('in %s are rows, of the train above them', async (_, camera, names, size) => {
    const lines = [
      'Cierzo Hill,16 januari 2026',
      '',
      `${camera},heron`,
      '',
      ...blocks('heron', size, names),
      `${camera},wren`,
      '',
      ...blocks('wren', size, names),
    ];
    expect(drafted(lines).yaml).toContain('entries: sheet');
    expect(only(await eventsRead(lines), EXPOSURES)).toEqual([...exposures].sort());
  });

  it('hold for all columns behind what is said once', () => {
    const block = (first: number): string[] => [
      `no,${first},${first + 1},${first + 2}`,
      'object,M 1,,',
      `open,20:0${first}:00,20:0${first + 1}:00,20:0${first + 2}:00`,
      '',
    ];
    expect(sheetRows([...block(1), ...block(4)])?.slice(-6)).toEqual([
      '1\tM 1\t20:01:00',
      '2\tM 1\t20:02:00',
      '3\tM 1\t20:03:00',
      '4\tM 1\t20:04:00',
      '5\tM 1\t20:05:00',
      '6\tM 1\t20:06:00',
    ]);
  });
});

it('plain tables and text are no sheet', () => {
  expect(sheetRows(SHOTS.map((shot) => `${clock(shot.atS)};${shot.train};${filterOf(shot)};${shot.file}`))).toBeNull();
  expect(sheetRows(SHOTS.map((shot) => `${clock(shot.atS)} ${shot.train} opens for 300 s`))).toBeNull();
  expect(sheetRows([])).toBeNull();
});

it('codes that a head explains in columns, a blank between, are read as what they mean', async () => {
  const lines = [
    'Cierzo Hill, night of 2026-01-16',
    '  XO shutter opened        XC shutter closed',
    '  NB nudge of mount begins NE nudge ends',
    '  ST mount steady again',
    '| time     | cd | camera |',
    ...[
      ...of('heron').flatMap(({ train, atS }) => [
        { s: atS, code: 'XO', train },
        { s: atS + 300, code: 'XC', train },
      ]),
      ...moves.slice(0, 20).flatMap(({ atS, calmS }) => [
        { s: atS, code: 'NB', train: '' },
        { s: atS + 12, code: 'NE', train: '' },
        { s: calmS, code: 'ST', train: '' },
      ]),
    ]
      .sort((a, b) => a.s - b.s)
      .map(({ s, code, train }) => `| ${clock(s)} | ${code} | ${train} |`),
  ];
  const events = await eventsRead(lines);
  expect(only(events, /exposure-begin/)).toHaveLength(of('heron').length);
  expect(only(events, /exposure-end/)).toHaveLength(of('heron').length);
  expect(only(events, /dither/)).toEqual(
    moves.slice(0, 20).flatMap(({ atS }) => [`${iso(atS)} dither-begin`, `${iso(atS + 12)} dither-end`]),
  );
});

it('an exposure that was cut short ends when its remark says, in whatever form', async () => {
  const lines = [
    'Cierzo Hill;16 janvier 2026',
    'caméra;début;pose (min);filtre;fichier;remarques',
    ...SHOTS.slice(0, 120).map((shot) => {
      const { cutS } = shot;
      const remark =
        cutS === undefined
          ? ''
          : `interrompue à ${clock(shot.atS + cutS)
              .replace(':', 'h')
              .replace(':', 'm')} (vent)`;
      return [shot.train, clock(shot.atS), '5', filterOf(shot), cutS === undefined ? shot.file : '', remark].join(';');
    }),
  ];
  expect(only(await eventsRead(lines), EXPOSURES)).toEqual(
    SHOTS.slice(0, 120)
      .flatMap(({ train, atS, cutS }) => [
        `${iso(atS)} exposure-begin ${train}`,
        `${iso(atS + (cutS ?? 300))} exposure-${cutS === undefined ? 'end' : 'abort'} ${train}`,
      ])
      .sort(),
  );
});
