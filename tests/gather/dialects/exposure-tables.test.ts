import { describe, expect, it } from 'vitest';
import { sideOfTitle } from '../../../src/gather/dialects/draft/lexicon/sides.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);

interface Shot {
  readonly train: string;
  readonly atS: number;
  readonly lastsS: number;
  readonly askedS: number;
  readonly filter: string;
  readonly file: string;
  /** Clock of the dither before it: its beginning. */
  readonly movedS?: number;
}

/** Two trains that begin together after each dither; later on one of them is asked for longer exposures. */
const SHOTS: readonly Shot[] = Array.from({ length: 14 }, (_, block): Shot[] => {
  const atS = block * 420;
  const long = block > 9 ? 240 : 180;
  const name = (train: string, nth: number): string => `${train}_M33_${String(nth).padStart(4, '0')}.fits`;
  const cut = block === 6;
  return [
    { train: 'heron', atS, lastsS: long, askedS: long, filter: 'Ha', file: name('heron', block + 1), movedS: atS - 20 },
    ...[0, 1].map((nth) => ({
      train: 'wren',
      atS: atS + 1 + nth * 122,
      lastsS: cut && nth === 1 ? 48 : 120,
      askedS: 120,
      filter: 'L',
      file: cut && nth === 1 ? '' : name('wren', 2 * block + nth + 1),
    })),
  ];
}).flat();

const iso = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().replace('.000Z', 'Z');
const clock = (seconds: number): string => iso(seconds).slice(11, 19);
const endOf = ({ atS, lastsS }: Shot): number => atS + lastsS;
const byEnd = [...SHOTS].sort((a, b) => endOf(a) - endOf(b));

const wanted = SHOTS.flatMap((shot) => [
  `${iso(shot.atS).replace('Z', '.000Z')} exposure-begin ${shot.train}`,
  `${iso(endOf(shot)).replace('Z', '.000Z')} exposure-${shot.file === '' ? 'abort' : 'end'} ${shot.train}`,
]).sort();

async function readBy(lines: readonly string[], file?: string): Promise<string[]> {
  const { yaml } = drafted(lines, file);
  const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', ...(file === undefined ? {} : { name: file }) });
  return brief(log)
    .map((line) => line.replace(/ \{.*$/, ''))
    .sort();
}

const rows = (title: string, shots: readonly Shot[], row: (shot: Shot) => readonly string[], by = ';'): string[] => [
  title,
  ...shots.map((shot) => row(shot).join(by)),
];

describe('a table in which every row is an exposure', () => {
  it.each([
    [
      'its beginning, what was asked for, and a remark how long it was when it was cut short',
      rows('Beginn;Kanal;Dauer [s];Filter;Objekt;Datei;Bemerkung', SHOTS, (shot) => [
        iso(shot.atS),
        shot.train,
        `${shot.askedS},0`,
        shot.filter,
        'M 33',
        shot.file,
        shot.file === '' ? `abgebrochen nach ${shot.lastsS} s, Wolken` : '',
      ]),
    ],
    [
      'its end and minutes with a decimal comma',
      rows('Fin de pose;Tube;Durée (min);Filtre;Cible;Fichier;Note', byEnd, (shot) => [
        iso(endOf(shot)),
        shot.train,
        (shot.lastsS / 60).toFixed(2).replace('.', ','),
        shot.filter,
        'M 33',
        shot.file,
        shot.file === '' ? 'interrompue' : '',
      ]),
    ],
    [
      'beginning and end, and in place of a file that there is none',
      rows('Inizio;Fine;Tubo;Filtro;Oggetto;Archivio', SHOTS, (shot) => [
        iso(shot.atS),
        iso(endOf(shot)),
        shot.train,
        shot.filter,
        'M 33',
        shot.file === '' ? 'annullata' : shot.file,
      ]),
    ],
    [
      'a length as a clock',
      rows('Alku;Putki;Kesto;Suodin;Kohde;Tiedosto', SHOTS, (shot) => [
        iso(shot.atS),
        shot.train,
        `0:0${Math.floor(shot.lastsS / 60)}:${String(shot.lastsS % 60).padStart(2, '0')}`,
        shot.filter,
        'M 33',
        shot.file === '' ? 'peruttu' : shot.file,
      ]),
    ],
    [
      'a time that is called no more than that, as lengths that change and trains that begin together tell',
      rows(
        'time,len,cam,flt,obj,frame',
        SHOTS,
        (shot) => [iso(shot.atS), String(shot.lastsS), shot.train, shot.filter, 'M 33', shot.file || 'aborted'],
        ',',
      ),
    ],
    [
      'the same for an end',
      rows(
        'time,len,cam,flt,obj,frame',
        byEnd,
        (shot) => [iso(endOf(shot)), String(shot.lastsS), shot.train, shot.filter, 'M 33', shot.file || 'aborted'],
        ',',
      ),
    ],
    [
      'strokes at both ends of its rows, and a line of dashes below the head',
      [
        '| slut | rör | tid s | filter | objekt | fil |',
        '|---|---|---:|---|---|---|',
        ...byEnd.map(
          (shot) =>
            `| ${iso(endOf(shot))} | ${shot.train} | ${shot.lastsS} | ${shot.filter} | M 33 | ${shot.file || 'avbruten'} |`,
        ),
        '',
        `Totalt ${SHOTS.length}`,
      ],
    ],
  ])('tells by its columns when it was, with %s', async (_, lines) => {
    expect(await readBy(lines)).toEqual(wanted);
  });

  it('tells what stands in other columns with times of their own', async () => {
    const lines = rows('Início;Tubo;Exposição s;Dither de;Dither até;Gravado às;Filtro;Ficheiro', SHOTS, (shot) => [
      iso(shot.atS),
      shot.train,
      String(shot.lastsS),
      shot.movedS === undefined ? '' : clock(shot.movedS),
      shot.movedS === undefined ? '' : clock(shot.movedS + 4),
      shot.file === '' ? '' : clock(endOf(shot) + 2),
      shot.filter,
      shot.file || 'interrompida',
    ]);
    const reported = await readBy(lines);
    expect(reported.filter((line) => line.includes('exposure'))).toEqual(wanted);
    expect(reported.filter((line) => line.includes('dither-end')).map((line) => line.slice(11, 19))).toEqual(
      SHOTS.flatMap(({ movedS }) => (movedS === undefined ? [] : [clock(movedS + 4)])),
    );
    expect(reported.filter((line) => line.includes('frame-saved'))).toHaveLength(
      SHOTS.filter(({ file }) => file !== '').length,
    );
  });

  it('has its cells at fixed places, though titles stand a blank apart and units below them', async () => {
    const cells = ['konec', 'kamera', 'expozice', 'filtr', 'objekt', 'soubor'];
    const widths = [10, 7, 9, 6, 9, 20];
    const set = (all: readonly string[]): string =>
      all
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join('')
        .trimEnd();
    const lines = [
      'Noc 2026-10-14, UTC',
      '',
      set(cells),
      set(['[UTC]', '', '[s]']),
      ...byEnd.map((shot) =>
        set([
          clock(endOf(shot)),
          shot.train,
          `${shot.lastsS},0`.padStart(8),
          shot.filter,
          'M 33',
          shot.file || '(zrušeno)',
        ]),
      ),
      `celkem ${SHOTS.length}`,
    ];
    const { yaml } = drafted(lines);
    expect(yaml).toContain("delimiter: 'fixed'");
    expect(await readBy(lines)).toEqual(wanted);
  });

  it('is none where rows tell of other steps, or the same file comes twice', () => {
    const steps = rows('start;end;step;filter;file', SHOTS, (shot) => [
      iso(shot.atS),
      iso(endOf(shot)),
      shot.train === 'heron' ? 'exposure' : 'focus',
      shot.filter,
      shot.train === 'heron' ? shot.file : '',
    ]);
    expect(drafted(steps).report.rules.some(({ kind }) => kind.exposure !== undefined)).toBe(false);
    const twice = rows('time;what;filter;s;file', SHOTS, (shot) => [
      iso(shot.atS),
      'closed',
      shot.filter,
      '120',
      'heron_0001.fits',
    ]);
    expect(drafted(twice).report.rules.some(({ kind }) => kind.exposure !== undefined)).toBe(false);
  });
});

describe('the title of a column with times', () => {
  it.each([
    ['Beginn', 'begin'],
    ['start_utc', 'begin'],
    ['Время начала', null],
    ['начало', 'begin'],
    ['Fin de pose', 'end'],
    ['einde', 'end'],
    ['終了時刻', 'end'],
    ['time [days since 1899-12-30]', null],
    ['Uhrzeit', null],
  ] as const)('%s', (title, side) => {
    expect(sideOfTitle([title])).toBe(side);
  });
});
