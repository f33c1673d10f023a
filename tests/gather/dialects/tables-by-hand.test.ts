import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import {
  EXPOSURES,
  SHOTS,
  clock,
  day,
  filterOf,
  inOrder,
  iso,
  moves,
  only,
  shotEvents,
  eventsRead,
} from './support/night-of-tables.js';

describe('tables as people write them', () => {
  it('have the date in a column of its own, whose first cell is its unit', async () => {
    const lines = [
      'Club de Cierzo Hill – feuille de nuit',
      'Date\tHeure\tTube\tÉvénement\tFiltre\tPose\tFichier',
      'j/m/a\thh:mm:ss\t–\t–\t–\ts\t–',
      ...inOrder(
        SHOTS.filter(({ cutS }) => cutS === undefined).flatMap((shot): (readonly [number, string])[] => {
          const row = (s: number, rest: string): readonly [number, string] => [
            s,
            `${day(s)}\t${clock(s)}\t${shot.train}\t${rest}`,
          ];
          return [
            row(shot.atS, `début de pose\t${filterOf(shot)}\t300\t`),
            row(shot.atS + 300, `fin de pose\t${filterOf(shot)}\t300\t${shot.file}`),
          ];
        }),
      ),
      'Total\t\t156 poses\t\t\t46800\t',
    ];
    // Both days of the night may be months as well.
    const { yaml } = drafted(lines);
    expect(yaml).toContain("time: ['Date', 'Heure']");
    const uncut = SHOTS.filter(({ cutS }) => cutS === undefined);
    expect(only(await eventsRead(lines), EXPOSURES)).toEqual(
      uncut
        .flatMap(({ train, atS }) => [`${iso(atS)} exposure-begin ${train}`, `${iso(atS + 300)} exposure-end ${train}`])
        .sort(),
    );
  });

  it('tell each frame as it ends, of two trains seconds apart: neither begins what the other ends', async () => {
    const lines = [
      'Cierzo Hill;Nacht vom 16. Januar 2026;;;;',
      'Datum;Uhr;Rohr;Vorgang;Filter;Sekunden;Datei',
      ...inOrder([
        ...SHOTS.filter(({ cutS }) => cutS === undefined).map((shot): readonly [number, string] => {
          const s = shot.atS + 300;
          return [s, `${day(s)};${clock(s)};${shot.train};Ende der Aufnahme;${filterOf(shot)};300;${shot.file}`];
        }),
        ...moves.flatMap(({ atS, calmS }): (readonly [number, string])[] => [
          [atS, `${day(atS)};${clock(atS)};;Versatz beginnt;;;`],
          [calmS, `${day(calmS)};${clock(calmS)};;Nachführung beruhigt;;;`],
        ]),
      ]),
    ];
    const uncut = SHOTS.filter(({ cutS }) => cutS === undefined);
    expect(only(await eventsRead(lines), /exposure-(?:begin|end)/)).toEqual(
      uncut
        .flatMap(({ train, atS }) => [`${iso(atS)} exposure-begin ${train}`, `${iso(atS + 300)} exposure-end ${train}`])
        .sort(),
    );
  });

  it('state both ends, whose distance is more than what was asked for, and less where it was cut short', async () => {
    const lines = [
      'Cierzo Hill;16/01/2026;;;;;;',
      'Belichtungen;;;;;;;',
      'Nr;Rohr;Filter;Beginn;Ende;Dauer (s);Datei;Bemerkung',
      ...SHOTS.map(({ train, atS, cutS, file }, i) =>
        [
          i + 1,
          train,
          train === 'heron' ? 'Ha' : 'L',
          clock(atS),
          clock(atS + (cutS ?? 300 + (i % 3))),
          '300,0',
          cutS === undefined ? file : '',
          cutS === undefined ? '' : 'abgebrochen, Wolken',
        ].join(';'),
      ),
      ';;;;;;;',
      'Sonst;;;;;;;',
      'Zeit;Was;Rohr;Einzelheit;;;;',
      ...inOrder(
        moves.flatMap(({ atS, pixels, calmS }, i): (readonly [number, string])[] => [
          [atS, `${clock(atS)};Versatz (Dither);;${pixels} px;;;;`],
          [calmS, `${clock(calmS)};Nachführung beruhigt;;nach dem Versatz;;;;`],
          ...(i % 7 === 3
            ? [[atS + 20, `${clock(atS + 20)};Fokuslauf beendet;heron;Breite 2,${i + 10} px;;;;`] as const]
            : []),
        ]),
      ),
      ';;;;;;;',
      'Übersicht;;;;;;;',
      'heron;77 Aufnahmen;23100 s;;;;;',
      'wren;80 Aufnahmen;24000 s;;;;;',
    ];
    const all = await eventsRead(lines);
    expect(only(all, EXPOSURES)).toEqual(
      SHOTS.flatMap(({ train, atS, cutS }, i) => [
        `${iso(atS)} exposure-begin ${train}`,
        `${iso(atS + (cutS ?? 300 + (i % 3)))} exposure-${cutS === undefined ? 'end' : 'abort'} ${train}`,
      ]).sort(),
    );
    // What stands in the column beside what happened gives the figures of it alone.
    expect(only(all, /dither-begin|settling-end/)).toEqual(
      moves.flatMap(({ atS, calmS }) => [`${iso(atS)} dither-begin`, `${iso(calmS)} settling-end`]).sort(),
    );
    expect(only(all, /focus/)).toHaveLength(6);
  });

  it('say instead of a file when an exposure was cut short', async () => {
    const columns = (...cells: readonly (string | number)[]): string =>
      cells
        .map((cell, i) => String(cell).padEnd([10, 7, 8, 22, 8, 0][i] ?? 0))
        .join('  ')
        .trimEnd();
    const lines = [
      'Relevé de Cierzo Hill, nuit du 16 au 17 janvier 2026, UTC',
      '',
      columns('début', 'durée', 'tube', 'quoi', 'filtre', 'remarques'),
      ...inOrder([
        ...SHOTS.map((shot): readonly [number, string] => [
          shot.atS,
          columns(
            clock(shot.atS),
            300,
            shot.train,
            'pose',
            filterOf(shot),
            shot.cutS === undefined ? shot.file : `interrompue à ${clock(shot.atS + shot.cutS)}`,
          ),
        ]),
        ...moves.flatMap(({ atS, pixels, calmS }): (readonly [number, string])[] => [
          [atS, columns(clock(atS), '-', '-', 'début du décalage', '-', `${pixels} px`)],
          [calmS, columns(clock(calmS), '-', '-', 'guidage stabilisé', '-', 'après décalage')],
        ]),
      ]),
    ];
    expect(only(await eventsRead(lines), EXPOSURES)).toEqual([...shotEvents].sort());
  });

  it('number their rows beside a date and a time, below a head that states the night', async () => {
    const lines = [
      'NIGHT BOOK,,,,,,',
      'Night of,16/01/2026,to,17/01/2026,,,',
      ',,,,,,',
      'EXPOSURES,,,,,,',
      'Nr,Day,Tube,Filter,From,To,Kept as',
      ...SHOTS.map((shot, i) =>
        [i + 1, day(shot.atS), shot.train, filterOf(shot), clock(shot.atS), clock(shot.atS + 300), shot.file].join(','),
      ),
      ',,,,,,',
      'GUIDING,,,,,,',
      'Nr,Day,What,From,To,,',
      ...[0, 9000, 18_000].map((s, i) =>
        [i + 1, day(1750 + s), 'Guiding', clock(1750 + s), clock(1750 + s + 8800), '', ''].join(','),
      ),
      ',,,,,,',
      'TOTALS,,,,,,',
      'heron,80 frames,24000 s,,,,',
      'wren,80 frames,24000 s,,,,',
      'Closed,17/01/2026,,,,,',
    ];
    expect(await eventsRead(lines)).toEqual([
      ...SHOTS.flatMap(({ train, atS }) => [
        `${iso(atS)} exposure-begin ${train}`,
        `${iso(atS + 300)} exposure-end ${train}`,
      ]),
      ...[0, 9000, 18_000].flatMap((s) => [`${iso(1750 + s)} guiding-begin`, `${iso(1750 + s + 8800)} guiding-end`]),
    ]);
  });
});

describe('hours and minutes with a point', () => {
  const minute = (s: number): string => `${Number(clock(s).slice(0, 2))}.${clock(s).slice(3, 5)}`;
  const DIARY = [
    'Beobachtungsbuch Cierzo Hill, Nacht vom 16. auf den 17. Januar 2026',
    ...inOrder([
      ...SHOTS.filter(({ train, cutS }) => train === 'heron' && cutS === undefined).map(
        ({ atS, file }): readonly [number, string] => [
          atS + 300,
          `${minute(atS + 300)} Aufnahme 300 s beendet, Ha, ${file}`,
        ],
      ),
      ...moves.map(({ atS }): readonly [number, string] => [atS, `${minute(atS)} Versatz beginnt`]),
    ]),
  ];
  const toMinute = (s: number): string => iso(s - (s % 60));

  it('are times where all lines begin so, and none goes back', async () => {
    expect(only(await eventsRead(DIARY), /exposure-end/)).toEqual(
      SHOTS.filter(({ train, cutS }) => train === 'heron' && cutS === undefined)
        .map(({ atS }) => `${toMinute(atS + 300)} exposure-end`)
        .sort(),
    );
  });

  it('are none in front of lines of which one has more minutes than an hour', () => {
    const broken = DIARY.map((line, i) => (i === 20 ? line.replace(/^(\d+)\.\d+/, '$1.75') : line));
    expect(drafted(broken).yaml).not.toContain('{hour}.{minute}');
  });

  it('are none where numbers go back', () => {
    const numbers = DIARY.map((line, i) => (i % 9 === 4 ? line.replace(/^\d+\./, '2.') : line));
    expect(drafted(numbers).yaml).not.toContain('{hour}.{minute}');
  });
});
