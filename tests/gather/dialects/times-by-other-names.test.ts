import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const AT = Date.UTC(2026, 9, 14, 20);
const iso = (ms: number): string => new Date(ms).toISOString();
/** What spans state beside what only happens: `since` and `until` there, `clock` here. */
type Row = Readonly<Record<string, string>>;
const EXPOSURES = 12;
const NIGHT: readonly Row[] = Array.from({ length: EXPOSURES }, (_, i): Row[] => {
  const at = AT + i * 200_000;
  return [
    { since: iso(at), until: iso(at + 120_300), unit: 'heron', act: 'exposure', seconds: '120', filter: 'Ha' },
    { clock: iso(at + 122_000), unit: 'heron', act: 'saved', file: `h_${i}.fits` },
    { since: iso(at + 123_000), until: iso(at + 126_000), act: 'dither' },
    ...Array.from({ length: 12 }, (__, k) => ({ clock: iso(at + 130_000 + k * 4000), act: 'sky', value: `${k}` })),
  ];
}).flat();
const NAMES = ['clock', 'unit', 'act', 'since', 'until', 'seconds', 'filter', 'file', 'value'];
const cellsOf = (row: Row): string[] => NAMES.map((name) => row[name] ?? '');

const DRESSES: readonly (readonly [string, readonly string[]])[] = [
  ['a table with tabs', [NAMES.join('\t'), ...NIGHT.map((row) => cellsOf(row).join('\t'))]],
  ['a table with semicolons', [NAMES.join(';'), ...NIGHT.map((row) => cellsOf(row).join(';'))]],
  [
    'pairs with dividers',
    NIGHT.map((row) =>
      Object.entries(row)
        .map(([key, value]) => `${key}: ${value}`)
        .join(' | '),
    ),
  ],
  [
    'elements',
    NIGHT.map(
      (row) =>
        `<note ${Object.entries(row)
          .map(([key, value]) => `${key}="${value}"`)
          .join(' ')}/>`,
    ),
  ],
];

it.each(DRESSES)('reads the times of rows that name them differently: %s', async (_, lines) => {
  const log = await read(drafted(lines).yaml, lines.join('\n'));
  const reported = log.events.map(({ atMs, event }) => `${iso(atMs)} ${event}`);
  const wanted = Array.from({ length: EXPOSURES }, (__, i) => {
    const at = AT + i * 200_000;
    return [
      `${iso(at)} exposure-begin`,
      `${iso(at + 120_300)} exposure-end`,
      `${iso(at + 122_000)} frame-saved`,
      `${iso(at + 123_000)} dither-begin`,
      `${iso(at + 126_000)} dither-end`,
    ];
  }).flat();
  expect(reported.sort()).toEqual(wanted.sort());
});

it('sorts sentences by their words where many of them name a file', () => {
  const lines = Array.from({ length: 80 }, (_, i) => [
    JSON.stringify({ at: iso(AT + i * 70_000), said: 'exposure started, 60 s' }),
    JSON.stringify({ at: iso(AT + i * 70_000 + 60_000), said: 'exposure finished' }),
    JSON.stringify({ at: iso(AT + i * 70_000 + 62_000), said: `saved heron_Ha_${i}.fits` }),
  ]).flat();
  const events = drafted(lines).report.rules.flatMap((rule) => rule.events.map(({ event }) => event));
  expect(events.sort()).toEqual(['exposure-begin', 'exposure-end', 'frame-saved']);
});
