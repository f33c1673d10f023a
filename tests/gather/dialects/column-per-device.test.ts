import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const EACH = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
csv: { delimiter: ";", header: [at, heron, wren, mount], each: [heron, wren, mount], time: at }
lines:
  - { when: { heron: '^open (?<filter>\\S+)$' }, event: exposure-begin, train: heron }
  - { when: { wren: '^open (?<filter>\\S+)$' }, event: exposure-begin, train: wren }
  - { when: { mount: '^dither$', heron: '^$' }, event: dither-begin }
`;

describe('columns of which each cell is a row of its own', () => {
  it('give the events of each, and what no rule matches costs the others nothing', async () => {
    const log = await read(EACH, 'at;heron;wren;mount\n20:00:00;open L;open Ha;\n20:05:00;dew;;dither\n', {
      sessionDate: '2026-10-14',
    });
    expect(brief(log)).toEqual([
      '2026-10-14T20:00:00.000Z exposure-begin heron {"filter":"L"}',
      '2026-10-14T20:00:00.000Z exposure-begin wren {"filter":"Ha"}',
      '2026-10-14T20:05:00.000Z dither-begin',
    ]);
  });

  it('are columns of the table', () => {
    const { warnings } = loadDialect('tern.yaml', EACH.replace('each: [heron, wren, mount]', 'each: [heron, wrem]'));
    expect(warnings.map(({ message }) => message).join('\n')).toMatch(/no column "wrem".*wren/s);
  });
});

const T0 = Date.UTC(2026, 9, 14, 19);
type Device = 'heron' | 'wren' | 'mount' | 'guider';
type Said = readonly [seconds: number, device: Device, text: string];

interface Words {
  readonly frame: readonly [(filter: string) => string, string, (file: string) => string];
  readonly dither: readonly [string, string];
  readonly settling: readonly [string, string];
}
const GERMAN: Words = {
  frame: [(filter) => `Aufnahme beginnt, ${filter} 240 s`, 'Aufnahme fertig', (file) => `gespeichert als ${file}`],
  dither: ['Versatz beginnt', 'Versatz fertig'],
  settling: ['Beruhigung beginnt', 'Beruhigung fertig'],
};
const SPANISH: Words = {
  frame: [(filter) => `exposición empieza, ${filter} 240 s`, 'exposición termina', (file) => `guardado como ${file}`],
  dither: ['desplazamiento empieza', 'desplazamiento termina'],
  settling: ['estabilización empieza', 'estabilización termina'],
};

/** Now and then both trains begin in the same second, and the guider settles from the second on in which a dither ends. */
function nightOf({ frame: [begins, ends, saved], dither, settling }: Words): readonly Said[] {
  return Array.from({ length: 36 }, (_, i): Said[] => {
    const at = 600 + i * 300;
    const trains = (['heron', 'wren'] as const).flatMap((train, nth): Said[] => {
      const from = i % 4 === 0 ? at : at + 7 * nth;
      return [
        [from, train, begins(nth === 0 ? 'L' : 'Ha')],
        [from + 240 + nth, train, ends],
        [from + 243 + nth, train, saved(`${train}_${String(i + 1)}.fits`)],
      ];
    });
    if (i % 3 !== 2) return trains;
    return [
      ...trains,
      [at + 260, 'mount', dither[0]],
      [at + 266, 'mount', dither[1]],
      [at + 266, 'guider', settling[0]],
      [at + 280 + (i % 5), 'guider', settling[1]],
    ];
  }).flat();
}

describe('a table with a column for each device', () => {
  it.each([
    ['German, semicolons', GERMAN, ';', ['heron', 'wren', 'mount', 'guider']],
    ['Spanish, tabs, other order', SPANISH, '\t', ['guider', 'mount', 'wren', 'heron']],
  ] as const)('is read where a row fills several: %s', async (_, words, delimiter, devices) => {
    const night = nightOf(words);
    const times = [...new Set(night.map(([at]) => at))].sort((a, b) => a - b);
    const stamp = (s: number): string => new Date(T0 + s * 1000).toISOString();
    const lines = [
      ['date', 'clock (UTC)', ...devices].join(delimiter),
      ...times.map((s) => {
        const cells = devices.map((own) => night.find(([at, device]) => at === s && device === own)?.[2] ?? '');
        return [stamp(s).slice(0, 10), stamp(s).slice(11, 19), ...cells].join(delimiter);
      }),
    ];
    const { yaml } = drafted(lines);
    const { events } = await read(yaml, `${lines.join('\n')}\n`);
    const found = (event: string): string[] =>
      events
        .filter((one) => one.event === event)
        .map(({ atMs, train }) => `${String((atMs - T0) / 1000)} ${train ?? ''}`.trim())
        .sort();
    const truth = (isSuch: (text: string) => boolean): string[] =>
      night
        .filter(([, , text]) => isSuch(text))
        .map(([at, device]) => (device === 'heron' || device === 'wren' ? `${String(at)} ${device}` : String(at)))
        .sort();
    expect(found('exposure-begin'), yaml).toEqual(truth((text) => text.endsWith('240 s')));
    expect(found('exposure-end'), yaml).toEqual(truth((text) => text === words.frame[1]));
    expect(found('frame-saved')).toEqual(truth((text) => text.endsWith('.fits')));
    expect(found('dither-begin'), yaml).toEqual(truth((text) => text === words.dither[0]));
    expect(found('dither-end'), yaml).toEqual(truth((text) => text === words.dither[1]));
    expect(found('settling-begin'), yaml).toEqual(truth((text) => text === words.settling[0]));
    expect(found('settling-end')).toEqual(truth((text) => text === words.settling[1]));
  });
});
