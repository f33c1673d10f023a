import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import {
  clock,
  day,
  EXPOSURES,
  filterOf,
  inOrder,
  iso,
  moves,
  only,
  type Shot,
  SHOTS,
  shotEvents,
  told,
} from './support/night-of-tables.js';
import { brief, dialect, read } from './support/read.js';

type Row = readonly [number, string];

const lastsOf = ({ seconds, cutS }: Shot): number => cutS ?? seconds;
const moveEvents = moves.flatMap(({ atS, calmS }) => [`${iso(atS)} dither-begin`, `${iso(calmS)} settling-end`]).sort();
const MOVES = /dither-begin|settling-end/;
const uncut = SHOTS.filter(({ cutS }) => cutS === undefined);
const uncutEvents = uncut
  .flatMap(({ train, atS }) => [`${iso(atS)} exposure-begin ${train}`, `${iso(atS + 300)} exposure-end ${train}`])
  .sort();
/** The dither behind the last exposure of heron in its block. */
const moveAfter = (shot: Shot): (typeof moves)[number] | undefined =>
  shot.train === 'heron' ? moves.find(({ atS }) => atS >= shot.atS + 300 && atS < shot.atS + 310) : undefined;

describe('sheets as people fill them', () => {
  it('have rows of exposures, which only their cells tell, among rows that say what happened', async () => {
    const lines = [
      'Foglio di Cierzo Hill;16/01/2026;;;;;',
      'Fine;Tubo;Filtro;Posa (s);File;Avvenimenti;',
      ...inOrder([
        ...SHOTS.map((shot): Row => {
          const endS = shot.atS + lastsOf(shot);
          const remark = shot.cutS === undefined ? '' : 'posa interrotta';
          const file = shot.cutS === undefined ? shot.file : '';
          return [endS, [clock(endS), shot.train, filterOf(shot), lastsOf(shot), file, remark, ''].join(';')];
        }),
        ...moves.flatMap(({ atS, pixels, calmS }): Row[] => [
          [atS, `${clock(atS)};;;;;inizio dither, ${pixels} px;`],
          [calmS, `${clock(calmS)};;;;;guida stabilizzata;`],
        ]),
      ]),
    ];
    const all = await told(lines);
    expect(only(all, EXPOSURES)).toEqual([...shotEvents].sort());
    expect(only(all, MOVES)).toEqual(moveEvents);
  });

  it('have a column for each train and one for the mount, of which each row fills one', async () => {
    const shots = uncut.flatMap((shot): Row[] => {
      const row = (s: number, text: string): Row => [
        s,
        shot.train === 'heron' ? `${clock(s)};${text};;` : `${clock(s)};;${text};`,
      ];
      return [
        row(shot.atS, `Aufnahme beginnt 300 s ${filterOf(shot)}`),
        row(shot.atS + 300, `Aufnahme beendet, ${shot.file}`),
        ...(moveAfter(shot) === undefined ? [] : [row(shot.atS + 301, 'wartet auf Versatz')]),
        ...(shot.atS % 5 === 2 ? [row(shot.atS - 1, 'Verschluss kontrolliert')] : []),
      ];
    });
    const lines = [
      'Spaltenblatt;Nacht vom 16. Januar 2026;;',
      'Uhrzeit;heron;wren;Montierung und Nachführung',
      ...inOrder([
        ...shots,
        ...moves.flatMap(({ atS, pixels, calmS }): Row[] => [
          [atS, `${clock(atS)};;;Versatz beginnt ${pixels} px`],
          [atS + 4, `${clock(atS + 4)};;;Versatz beendet`],
          [atS + 5, `${clock(atS + 5)};;;Beruhigung beginnt`],
          [calmS, `${clock(calmS)};;;Nachführung ruhig`],
        ]),
      ]),
    ];
    const all = await told(lines);
    expect(only(all, EXPOSURES)).toEqual(uncutEvents);
    expect(only(all, MOVES)).toEqual(moveEvents);
  });

  it('state the date where a day begins, and leave it out below', async () => {
    const rows = uncut.flatMap((shot): Row[] => [
      [shot.atS, `${clock(shot.atS)};${shot.train};start ekspozycji;300 s;`],
      [shot.atS + 300, `${clock(shot.atS + 300)};${shot.train};koniec ekspozycji;;${shot.file}`],
    ]);
    let last = '';
    const lines = [
      'Data;Godzina;Luneta;Zdarzenie;Czas;Plik',
      ...[...rows]
        .sort((a, b) => a[0] - b[0])
        .map(([s, text]) => {
          const own = day(s) === last ? '' : day(s);
          last = day(s);
          return `${own};${text}`;
        }),
    ];
    expect(drafted(lines).yaml).toContain("pattern: '{day}/{month}/{year}'");
    expect(only(await told(lines), EXPOSURES)).toEqual(uncutEvents);
  });

  it('name groups of columns above their heads, where columns of several are called the same', async () => {
    const lines = [
      'Tableau de Cierzo Hill;16/01/2026;;;;;;;',
      'Pose;;;;;Dither;;;',
      'Tube;Filtre;Début;Fin;Fichier;Début;Fin;Calme à;Pixels',
      ...uncut.map((shot) => {
        const move = moveAfter(shot);
        const own = [shot.train, filterOf(shot), clock(shot.atS), clock(shot.atS + 300), shot.file];
        const after =
          move === undefined
            ? ['', '', '', '']
            : [clock(move.atS), clock(move.atS + 4), clock(move.calmS), move.pixels];
        return [...own, ...after].join(';');
      }),
    ];
    const { yaml } = drafted(lines);
    expect(yaml).toContain("'Pose Début'");
    const all = await told(lines);
    expect(only(all, EXPOSURES)).toEqual(uncutEvents);
    const stated = moves.filter(({ atS }) => uncut.some((shot) => moveAfter(shot)?.atS === atS));
    expect(only(all, MOVES)).toEqual(
      stated.flatMap(({ atS, calmS }) => [`${iso(atS)} dither-begin heron`, `${iso(calmS)} settling-end heron`]).sort(),
    );
  });

  it('give lengths in minutes', async () => {
    const lines = [
      'Datum\tStart\tKamera\tFilter\tLänge [min]\tDatei',
      ...uncut.map((shot) => [day(shot.atS), clock(shot.atS), shot.train, filterOf(shot), '5,0', shot.file].join('\t')),
    ];
    expect(only(await told(lines), EXPOSURES)).toEqual(uncutEvents);
  });
});

describe('lines with a length right behind their stamps', () => {
  /** Each at its beginning, or at its end; single things of one train, one after the other. */
  const list = (at: 'begin' | 'end'): string[] => [
    'Nachtliste Cierzo Hill, 16. Januar 2026',
    ...inOrder(
      [
        ...uncut
          .filter(({ train }) => train === 'heron')
          .map((shot): readonly [number, number, string] => [shot.atS, 300, `Aufnahme  ${shot.file}`]),
        ...moves.flatMap(({ atS, calmS }): (readonly [number, number, string])[] => [
          [atS, 4, 'Versatz'],
          [atS + 5, calmS - atS - 5, 'Beruhigung'],
        ]),
      ].map(([atS, lasts, text]): Row => {
        const s = at === 'begin' ? atS : atS + lasts;
        return [s, `${clock(s)}  +${String(lasts).padStart(4)} s  ${text}`];
      }),
    ),
  ];
  const wanted = moves.flatMap(({ atS, calmS }) => [
    `${iso(atS)} dither-begin`,
    `${iso(atS + 4)} dither-end`,
    `${iso(atS + 5)} settling-begin`,
    `${iso(calmS)} settling-end`,
  ]);

  it('begin there, where it would overlap what was before if it had ended', async () => {
    expect(only(await told(list('begin')), /dither|settling/)).toEqual(wanted.sort());
  });

  it('do not end so much later otherwise', () => {
    expect(drafted(list('begin')).yaml).toContain('lasts: took');
    expect(drafted(list('end')).yaml).not.toContain('lasts: took');
  });
});

describe('a length that a row states', () => {
  const rules = (more: string): string => `dialect: 1
time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: utc, caught: "{hour}:{minute}:{second}" }
csv: { delimiter: ",", header: [at, seconds, moved], time: at }
lines:
  - ${more}
`;
  const LOG = 'at,seconds,moved\n2026-01-16 20:05:00,300,20:10:02\n';
  const events = async (more: string): Promise<string[]> => {
    expect(dialect(rules(more)).lines).toHaveLength(1);
    return brief(await read(rules(more), LOG)).map((line) => line.slice(11, 19) + line.slice(24));
  };

  it('is that of what has no time of its own', async () => {
    expect(
      await events(
        '{ when: { seconds: . }, event: [exposure-begin, dither-begin], at: { dither-begin: moved }, lasts: seconds }',
      ),
    ).toEqual(['20:05:00 exposure-begin', '20:10:02 dither-begin', '20:10:00 exposure-end']);
    expect(
      await events(
        '{ when: { seconds: . }, event: [exposure-end, dither-end], at: { dither-end: moved }, lasted: seconds }',
      ),
    ).toEqual(['20:00:00 exposure-begin', '20:05:00 exposure-end', '20:10:02 dither-end']);
  });

  it('is that of the one event that has a time of its own, where it is alone', async () => {
    expect(
      await events('{ when: { seconds: . }, event: exposure-begin, at: { exposure-begin: moved }, lasts: seconds }'),
    ).toEqual(['20:10:02 exposure-begin', '20:15:02 exposure-end']);
  });
});
