import { describe, expect, it } from 'vitest';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const EVENING_MS = Date.UTC(2026, 9, 14, 19);

/** Something that a train or the mount did, seconds after 19:00 UTC. */
interface Step {
  readonly what: string;
  readonly train: string;
  readonly fromS: number;
  readonly toS: number;
  readonly value: string;
}

/** A night beyond midnight: two exposures of each train, a dither, settling, and now and then a run of the focuser. */
const NIGHT: readonly Step[] = Array.from({ length: 30 }, (_, i) => {
  const at = 1200 + i * 750;
  const filter = i < 15 ? 'L' : 'Ha';
  const exposure = (train: string, fromS: number, seconds: number): Step => ({
    what: 'exposure',
    train,
    fromS,
    toS: fromS + seconds,
    value: filter,
  });
  const other = (what: string, fromS: number, seconds: number, value = ''): Step => ({
    what,
    train: 'heron',
    fromS,
    toS: fromS + seconds,
    value,
  });
  return [
    exposure('heron', at, 240),
    exposure('wren', at + 1, 300),
    exposure('heron', at + 243, 240),
    exposure('wren', at + 305, 180),
    other('dither', at + 490, 5, `${2 + (i % 4)},5`),
    other('settling', at + 495, 9 + (i % 7)),
    ...(i % 5 === 4 ? [other('focus', at + 530, 90 + i, `2,${60 - i}`)] : []),
    ...(i === 14 ? [other('filter', at + 515, 6, 'Ha'), { ...other('filter', at + 516, 7, 'Ha'), train: 'wren' }] : []),
  ];
}).flat();

const stamp = (s: number): string => new Date(EVENING_MS + s * 1000).toISOString();
const clock = (s: number): string => stamp(s).slice(11, 19);
const of = (what: string): readonly Step[] => NIGHT.filter((step) => step.what === what);
const truth = (what: string): string[] =>
  of(what)
    .flatMap(({ fromS, toS, train }) => [
      `${stamp(fromS)} ${what}-begin ${train}`,
      `${stamp(toS)} ${what}-end ${train}`,
    ])
    .sort();

async function events(lines: readonly string[], what: string): Promise<string[]> {
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-10-14' });
  const names = new Set<EventName>([`${what}-begin` as EventName, `${what}-end` as EventName]);
  return log.events
    .filter(({ event }) => names.has(event))
    .map(({ atMs, event, train }) => `${new Date(atMs).toISOString()} ${event} ${train ?? ''}`)
    .sort();
}

const WORDS: Readonly<Record<string, readonly [string, string]>> = {
  dither: ['Versatz beginnt', 'Versatz beendet'],
  settling: ['Beruhigung beginnt', 'Beruhigung beendet'],
  focus: ['Fokuslauf beginnt', 'Fokuslauf beendet'],
  filter: ['Filterwechsel beginnt', 'Filterwechsel beendet'],
};
const SAMPLES = Array.from({ length: 300 }, (_, i) => ({
  atS: 1200 + i * 75,
  ra: Math.round(40 * Math.sin(i * 1.7)) / 100 + 0,
  dec: Math.round(30 * Math.cos(i * 2.3)) / 100 + 0,
}));
const comma = (number: number): string => String(number).replace('.', ',');

/** Exposures, the mount and the guiding, each in a table of its own, as a spreadsheet writes them. */
const BOOK = [
  '\uFEFFCierzo Hill;Nacht vom 14. Oktober 2026;UTC',
  '',
  'Belichtungen',
  'Nr;Rohr;Objekt;Filter;Beginn;Ende;Dauer;Datei',
  ';;;;h:m:s;h:m:s;s;',
  ...of('exposure').map(
    ({ train, value, fromS, toS }, i) =>
      `${i + 1};${train};NGC 891;${value};${clock(fromS)};${clock(toS)};${toS - fromS};${train}_${i + 1}.fits`,
  ),
  `Summe;;;;;;${of('exposure').reduce((sum, { fromS, toS }) => sum + toS - fromS, 0)};`,
  '',
  'Montierung',
  'Uhrzeit;Rohr;Vorgang;Bemerkung',
  ...NIGHT.filter(({ what }) => what !== 'exposure')
    .flatMap(({ what, train, fromS, toS }) => [
      { atS: fromS, text: `${clock(fromS)};${train};${WORDS[what]?.[0] ?? ''};` },
      { atS: toS, text: `${clock(toS)};${train};${WORDS[what]?.[1] ?? ''};` },
    ])
    .sort((a, b) => a.atS - b.atS)
    .map(({ text }) => text),
  '',
  'Nachführfehler',
  'Uhrzeit;RA;Dek',
  ';Bogensekunden;Bogensekunden',
  ...SAMPLES.map(({ atS, ra, dec }) => `${clock(atS)};${comma(ra)};${comma(dec)}`),
];

const FLIP: Step = { what: 'flip', train: 'heron', fromS: 12_150, toS: 12_240, value: '' };

/** A table for each kind of thing: what it is about, its heading alone says. */
const BY_KIND = [
  'Cuaderno de Cierzo Hill, UTC',
  '',
  '## Exposiciones',
  'Equipo\tInicio\tFin\tFiltro',
  ...of('exposure').map((step) => row(step).join('\t')),
  '',
  '## Enfoques',
  'Equipo\tInicio\tFin\tTamaño',
  ...of('focus').map((step) => row(step).join('\t')),
  '',
  '## Dithers',
  'Equipo\tInicio\tFin\tPíxeles',
  ...of('dither').map((step) => row(step).join('\t')),
  '',
  '## Estabilizaciones',
  'Equipo\tInicio\tFin',
  ...of('settling').map((step) => row(step).slice(0, 3).join('\t')),
  '',
  '## Volteo de meridiano',
  'Equipo\tInicio\tFin',
  row(FLIP).slice(0, 3).join('\t'),
];

/** The same as a spreadsheet writes it that fills all rows up to the widest. */
const PADDED = BOOK.map((line) => line + ';'.repeat(7 - (line.match(/;/g) ?? []).length));

/** A table for each train, whose headings alone tell which, and one of the mount. */
const BY_TRAIN = [
  'Night of 14 October 2026',
  ...['heron', 'wren'].flatMap((train) => [
    '',
    `tube ${train}`,
    'begin,end,filter,file',
    ...of('exposure')
      .filter((step) => step.train === train)
      .map(({ fromS, toS, value }, i) => `${stamp(fromS)},${stamp(toS)},${value},${value}_${i}.fits`),
  ]),
  '',
  'mount',
  'time,train,step',
  ...of('dither').flatMap(({ train, fromS, toS }) => [
    `${clock(fromS)},${train},dither begins`,
    `${clock(toS)},${train},dither ends`,
  ]),
];

function row({ train, fromS, toS, value }: Step): string[] {
  return [train, ...[fromS, toS].map((s) => stamp(s).slice(0, 19).replace('T', ' ')), value];
}

describe('a log of several tables is drafted', () => {
  it.each(['exposure', 'dither', 'settling', 'focus', 'filter'])(
    'with what a table of steps and one of exposures tell: %s',
    async (what) => {
      expect(await events(BOOK, what)).toEqual(truth(what));
    },
  );

  it('with guiding samples in one of them, and each starting from the beginning of the night', async () => {
    const log = await read(drafted(BOOK).yaml, `${BOOK.join('\n')}\n`, { zone: 'UTC' });
    expect(log.guiding?.atMs[0]).toBe(EVENING_MS + 1_200_000);
    expect([...(log.guiding?.raArcsec ?? [])]).toEqual(SAMPLES.map(({ ra }) => ra));
    expect([...(log.guiding?.decArcsec ?? [])]).toEqual(SAMPLES.map(({ dec }) => dec));
  });

  it.each(['exposure', 'dither', 'settling', 'focus'])('by what its headings say: %s', async (what) => {
    expect(await events(BY_KIND, what)).toEqual(truth(what));
  });

  it('down to one row of what is rare', async () => {
    expect(await events(BY_KIND, 'flip')).toEqual([
      `${stamp(FLIP.fromS)} flip-begin heron`,
      `${stamp(FLIP.toS)} flip-end heron`,
    ]);
  });

  it.each(['exposure', 'dither', 'settling', 'focus'])('with empty cells at the ends of rows: %s', async (what) => {
    expect(await events(PADDED, what)).toEqual(truth(what));
  });

  it('whose headings alone tell two tables of the same columns apart', async () => {
    for (const what of ['exposure', 'dither']) expect(await events(BY_TRAIN, what)).toEqual(truth(what));
    const { layout } = drafted(BY_TRAIN).report;
    expect(layout).toMatchObject({
      kind: 'tables',
      tables: [{ below: 'tube heron' }, { below: 'tube wren' }, { name: 'mount', below: null }],
    });
  });

  it('on the clock of the one that states its zone, where another does not', () => {
    expect(drafted(BY_TRAIN).yaml).toContain("zone: 'utc'");
    const early = BY_TRAIN.map((line) => line.replace(/^(\d\d):/, (_, hour) => `${(Number(hour) + 22) % 24}:`));
    expect(drafted(early).yaml).toContain('zone: site');
  });

  it('but one table whose header row comes again is one', () => {
    const head = 'Uhrzeit;Rohr;Vorgang;Bemerkung';
    const begin = BOOK.indexOf(head);
    const rows = BOOK.slice(begin + 1, begin + 80).filter((line) => line.includes(';'));
    const { yaml } = drafted([head, ...rows.slice(0, 40), '', head, ...rows.slice(40)]);
    expect(yaml).toContain('csv:\n  delimiter');
  });
});
