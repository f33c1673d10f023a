/** Sheets kept to the minute with a column for each train and one for both, several things to a cell; wording of ours. */
export interface MinuteSheet {
  readonly language: string;
  readonly delimiter: string;
  /** Stands between the things of a cell. */
  readonly mark: string;
  readonly time: string;
  readonly clock: (hour: string, minute: string) => string;
  readonly both: string;
  readonly begins: (number: number, filter: string, seconds: number) => string;
  readonly ends: (number: number) => string;
  readonly dither: string;
  readonly settled: string;
}

const colon = (hour: string, minute: string): string => `${hour}:${minute}`;

export const MINUTE_SHEETS: readonly MinuteSheet[] = [
  {
    language: 'English',
    delimiter: ' | ',
    mark: '; ',
    time: 'Time',
    clock: colon,
    both: 'shared',
    begins: (n, filter, s) => `no. ${n} begins, ${filter} ${s} s`,
    ends: (n) => `no. ${n} ends`,
    dither: 'dither begins (3.1 px)',
    settled: 'settled',
  },
  {
    language: 'German',
    delimiter: '\t',
    mark: ' / ',
    time: 'Uhr',
    clock: (hour, minute) => `${hour}.${minute}`,
    both: 'Montierung',
    begins: (n, filter, s) => `Beginn Nr. ${n}: ${filter} ${s} s`,
    ends: (n) => `Ende Nr. ${n}`,
    dither: 'Dither beginnt, 3,1 px',
    settled: 'beruhigt',
  },
  {
    language: 'French',
    delimiter: ';',
    mark: ' + ',
    time: 'Heure',
    clock: (hour, minute) => `${hour}h${minute}`,
    both: 'commun',
    begins: (n, filter, s) => `début pose ${n}, ${filter} ${s} s`,
    ends: (n) => `fin pose ${n}`,
    dither: 'dither commence (3,1 px)',
    settled: 'stabilisé',
  },
  {
    language: 'Spanish',
    delimiter: ',',
    mark: '; ',
    time: 'Hora',
    clock: colon,
    both: 'los dos',
    begins: (n, filter, s) => `empieza la ${n} ${filter} ${s} s`,
    ends: (n) => `termina la ${n}`,
    dither: 'empieza el dither',
    settled: 'estabilizado',
  },
  {
    language: 'Italian',
    delimiter: ';',
    mark: ' · ',
    time: 'Ora',
    clock: (hour, minute) => `${hour}.${minute}`,
    both: 'insieme',
    begins: (n, filter, s) => `inizio posa ${n} ${filter} ${s} s`,
    ends: (n) => `fine posa ${n}`,
    dither: 'inizio dither 3,1 px',
    settled: 'assestato',
  },
  {
    language: 'Dutch',
    delimiter: ' | ',
    mark: '; ',
    time: 'Tijd',
    clock: colon,
    both: 'samen',
    begins: (n, filter, s) => `start opname ${n} ${filter} ${s} s`,
    ends: (n) => `opname ${n} klaar`,
    dither: 'dither begint',
    settled: 'tot rust gekomen',
  },
  {
    language: 'Polish',
    delimiter: '\t',
    mark: '; ',
    time: 'Godz.',
    clock: colon,
    both: 'wspólne',
    begins: (n, filter, s) => `początek nr ${n} ${filter} ${s} s`,
    ends: (n) => `koniec nr ${n}`,
    dither: 'początek ditheru',
    settled: 'ustabilizowano',
  },
  {
    language: 'Swedish',
    delimiter: ' | ',
    mark: ' / ',
    time: 'Tid',
    clock: (hour, minute) => `${hour}.${minute}`,
    both: 'båda',
    begins: (n, filter, s) => `börjar bild ${n} ${filter} ${s} s`,
    ends: (n) => `bild ${n} klar`,
    dither: 'dither börjar',
    settled: 'lugnt',
  },
];

const T0 = Date.UTC(2026, 9, 14, 20);
const SHOTS = 14;

/** Minute, column and text key of what happened. */
function happened(): readonly (readonly [minute: number, column: 0 | 1 | 2, event: string, number: number])[] {
  return Array.from({ length: SHOTS }, (_, i) => i).flatMap((i) => {
    const at = 10 + i * 13;
    return [
      [at, 0, 'exposure-begin', 2 * i + 1],
      [at, 1, 'exposure-begin', i + 41],
      [at + 5, 0, 'exposure-end', 2 * i + 1],
      [at + 5, 0, 'exposure-begin', 2 * i + 2],
      [at + 7, 1, 'exposure-end', i + 41],
      [at + 10, 0, 'exposure-end', 2 * i + 2],
      [at + 10 + (i % 2), 2, 'dither-begin', 0],
      [at + 11, 2, 'settling-end', 0],
    ] as const;
  });
}

/** The sheet's lines. */
export function minuteSheet(sheet: MinuteSheet): string[] {
  const texts = new Map<number, [string[], string[], string[]]>();
  for (const [minute, column, event, number] of happened()) {
    const cells = texts.get(minute) ?? [[], [], []];
    texts.set(minute, cells);
    const text =
      event === 'exposure-begin'
        ? sheet.begins(number, column === 0 ? 'R' : 'Ha', column === 0 ? 300 : 420)
        : event === 'exposure-end'
          ? sheet.ends(number)
          : event === 'dither-begin'
            ? sheet.dither
            : sheet.settled;
    cells[column].push(text);
  }
  const rows = [...texts].map(([minute, cells]) => {
    const at = new Date(T0 + minute * 60_000).toISOString();
    return [sheet.clock(at.slice(11, 13), at.slice(14, 16)), ...cells.map((own) => own.join(sheet.mark))];
  });
  return [
    '14.10.2026',
    '',
    ...[[sheet.time, 'heron', 'wren', sheet.both], ...rows].map((row) => row.join(sheet.delimiter)),
  ];
}

/** What the sheets tell, in short. */
export function minuteNight(): string[] {
  return happened()
    .map(([minute, column, event]) =>
      `${new Date(T0 + minute * 60_000).toISOString()} ${event} ${['heron', 'wren', ''][column] ?? ''}`.trim(),
    )
    .sort();
}
