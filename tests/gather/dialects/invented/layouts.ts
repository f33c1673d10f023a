import type { Random } from '../../../support/generator/random.js';
import type { Language, Phase, Subject } from './languages.js';
import { pick, type Happening } from './night.js';

/** How one happening is printed, its stamp made already; `null` when such a log does not print it. */
export interface LogLayout {
  readonly id: string;
  readonly extension: string;
  readonly head: readonly string[];
  print(stamp: string, happening: Happening, words: Words): string | null;
}

/** The words of a log: wordings, and names of devices, phases and fields, some of them made up. */
export interface Words {
  message(happening: Happening): string;
  subject(subject: Subject): string;
  phase(phase: Phase): string;
  field(index: number): string;
}

const OF: Readonly<Record<string, readonly [Subject, Phase]>> = {
  'exposure-abort': ['exposure', 'abort'],
  'frame-saved': ['frame', 'saved'],
  'dither-ready': ['dither', 'ready'],
  'guiding-rest-begin': ['guiding', 'pause'],
  'guiding-rest-end': ['guiding', 'resume'],
  'star-gap-begin': ['star', 'lost'],
  'star-gap-end': ['star', 'found'],
  cooler: ['cooler', 'report'],
};

function partsOf({ event }: Happening): readonly [Subject, Phase] | null {
  if (event === 'chatter') return null;
  const known = OF[event];
  if (known !== undefined) return known;
  const [subject, phase] = event.split('-');
  return [subject as Subject, phase as Phase];
}

/** The facts of a happening with the numbers of their field names. */
function factsOf({ event, facts }: Happening): [number, string][] {
  const rows: [number, string | number | undefined][] = [
    [0, facts.seconds],
    [1, facts.filter ?? facts.to],
    [2, facts.target],
    [3, facts.file],
    [4, facts.pixels],
    [5, facts.position],
    [6, facts.temperature],
    [7, facts.setpoint],
  ];
  if (event === 'frame-saved')
    return rows.flatMap(([i, value]) => (i === 3 && value !== undefined ? [[i, String(value)]] : []));
  return rows.flatMap(([i, value]): [number, string][] => (value === undefined ? [] : [[i, String(value)]]));
}

const text = (
  id: string,
  join: (stamp: string, device: string, message: string, random: Random) => string,
  random: Random,
): LogLayout => ({
  id,
  extension: 'log',
  head: [],
  print: (stamp, happening, words) => {
    const [subject] = partsOf(happening) ?? ['hold'];
    return join(stamp, words.subject(subject as Subject), words.message(happening), random);
  },
});

type Make = (language: Language, random: Random, words: Words) => LogLayout;

const LAYOUTS: readonly Make[] = [
  (_, random) => text('sentences', (stamp, _device, message) => `${stamp} ${message}`, random),
  (_, random) => text('brackets', (stamp, _device, message) => `[${stamp}] ${message}`, random),
  (_, random) => text('dashes', (stamp, _device, message) => `${stamp} - ${message}`, random),
  (_, random) => text('devices', (stamp, device, message) => `${stamp} ${device}: ${message}`, random),
  (_, random) => text('tildes', (stamp, device, message) => `${stamp} ~ ${device} ~ INFO ~ ${message}`, random),
  () => ({
    id: 'columns',
    extension: 'txt',
    head: [],
    print: (stamp, happening, words) => {
      const parts = partsOf(happening);
      if (parts === null) return null;
      const values = factsOf(happening)
        .map(([, value]) => value.padEnd(10))
        .join('');
      return `${stamp}  ${words.subject(parts[0]).padEnd(16)}${words.phase(parts[1]).padEnd(14)}${values}`.trimEnd();
    },
  }),
  () => ({
    id: 'pairs',
    extension: 'log',
    head: [],
    print: (stamp, happening, words) => {
      const parts = partsOf(happening);
      if (parts === null) return null;
      const values = factsOf(happening)
        .map(([i, value]) => ` ${words.field(i)}=${value.replace(' ', '')}`)
        .join('');
      return `${stamp} ${words.field(9)}=${words.subject(parts[0]).replace(/ /g, '')} ${words.field(10)}=${words.phase(parts[1]).replace(/ /g, '')}${values}`;
    },
  }),
  (_, random) => {
    const nested = random.next() < 0.5;
    return {
      id: nested ? 'json-nested' : 'json',
      extension: 'jsonl',
      head: [],
      print: (stamp, happening, words) => {
        const parts = partsOf(happening);
        if (parts === null) return null;
        const values = Object.fromEntries(
          factsOf(happening).map(([i, value]) => [words.field(i), Number.isNaN(Number(value)) ? value : Number(value)]),
        );
        const time = /^\d{10,13}(\.\d)?$/.test(stamp) ? Number(stamp) : stamp;
        const [part, phase] = [words.subject(parts[0]), words.phase(parts[1])];
        return JSON.stringify(
          nested
            ? {
                t: time,
                [words.field(9)]: {
                  [words.field(10)]: part,
                  [words.field(11)]: phase,
                  ...(Object.keys(values).length > 0 ? { data: values } : {}),
                },
              }
            : { t: time, [words.field(9)]: part, [words.field(10)]: phase, ...values },
        );
      },
    };
  },
  () => ({
    id: 'tags',
    extension: 'xml',
    head: [],
    print: (stamp, happening, words) => {
      const parts = partsOf(happening);
      if (parts === null) return null;
      const name = (word: string): string => word.replace(/[^\p{L}\d]+/gu, '');
      const values = factsOf(happening)
        .map(([i, value]) => ` ${name(words.field(i))}="${value}"`)
        .join('');
      return `<${name(words.subject(parts[0]))} t="${stamp}" ${name(words.field(10))}="${words.phase(parts[1])}"${values}/>`;
    },
  }),
  (language, random, words) => {
    const delimiter = language.decimalComma ? ';' : pick([',', ';', '\t'], random);
    const number = (value: string): string =>
      language.decimalComma ? value.replace(/^(-?\d+)\.(\d+)$/, '$1,$2') : value;
    return {
      id: 'csv',
      extension: 'csv',
      head: [
        ['t', words.field(9), words.field(11), ...[0, 1, 2, 3, 4, 5, 6, 7].map((i) => words.field(i))].join(delimiter),
      ],
      print: (stamp, happening, own) => {
        const parts = partsOf(happening);
        if (parts === null) return null;
        const values = new Map(factsOf(happening));
        const cells = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => number(values.get(i) ?? ''));
        return [stamp, own.subject(parts[0]), own.phase(parts[1]), ...cells].join(delimiter);
      },
    };
  },
  (_, random) => ({
    ...text('blocks', (stamp, _device, message) => `${stamp} ${message}`, random),
    id: 'blocks',
    print: (stamp, happening, words) => {
      const message = words.message(happening);
      const values = factsOf(happening).filter(([, value]) => !message.includes(value));
      return [`${stamp} ${message}`, ...values.map(([i, value]) => `    ${words.field(i)} ${value}`)].join('\n');
    },
  }),
];

/** A way to lay out lines, by chance. */
export function randomLayout(language: Language, random: Random, words: Words): LogLayout {
  return pick(LAYOUTS, random)(language, random, words);
}
