import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const START_MS = Date.UTC(2026, 9, 14, 20);
const stamp = (seconds: number): string => new Date(START_MS + seconds * 1000).toISOString().slice(0, 19);

/** What a night's log has of each name. */
async function countsIn(yaml: string, lines: readonly string[]): Promise<Map<string, string[]>> {
  const found = new Map<string, string[]>();
  for (const text of brief(await read(yaml, `${lines.join('\n')}\n`))) {
    const [at = '', name = ''] = text.split(' ');
    found.set(name, [...(found.get(name) ?? []), at]);
  }
  return found;
}

/** Exposures on cards; the mount and the guider in lines of their own, some with fields below. */
const NIGHT = Array.from({ length: 24 }, (_, i) => {
  const at = i * 330;
  return [
    `[frame ${String(i + 1)}]`,
    `  begin: ${stamp(at)}Z`,
    `  end: ${stamp(at + 300)}Z`,
    '  filter: Ha',
    '  seconds: 300',
    `[${stamp(at + 302)}Z] dither begins`,
    `  amount: 3.${String(i % 10)} px`,
    `[${stamp(at + 306)}Z] dither ends`,
    `[${stamp(at + 306)}Z] settling begins`,
    `[${stamp(at + 318)}Z] settling ends`,
  ];
}).flat();

describe('cards with the exposures, beside lines with stamps', () => {
  it('are both read, each with its own time', async () => {
    const { yaml } = drafted(['night of October 14, universal time', ...NIGHT]);
    const found = await countsIn(yaml, NIGHT);
    for (const [name, seconds] of [
      ['exposure-begin', 0],
      ['exposure-end', 300],
      ['dither-begin', 302],
      ['dither-end', 306],
      ['settling-begin', 306],
      ['settling-end', 318],
    ] as const)
      expect(found.get(name), name).toEqual(Array.from({ length: 24 }, (_, i) => `${stamp(i * 330 + seconds)}.000Z`));
  });

  it('may list guiding samples on cards of their own', async () => {
    const cards = Array.from({ length: 4 }, (_, i) => [
      '[guiding errors, arcsec]',
      ...Array.from(
        { length: 8 },
        (_, k) =>
          `  ${stamp(i * 1980 + k * 30)}Z  RA ${k % 2 ? '+' : '-'}0.${String(k + 11)}  DEC ${k % 3 ? '-' : '+'}0.2${String(k)}`,
      ),
    ]);
    const lines = NIGHT.flatMap((line, i) => [...((i % 60 === 0 ? cards[i / 60] : undefined) ?? []), line]);
    const { yaml } = drafted(lines);
    const { guiding } = await read(yaml, `${lines.join('\n')}\n`);
    expect(guiding?.atMs).toHaveLength(32);
    expect(guiding?.atMs[9]).toBe(START_MS + 2_010_000);
    expect([guiding?.raArcsec[9], guiding?.decArcsec[9]]).toEqual([0.12, -0.21]);
  });

  it('an entry has the time of its own line where the one before it is a card', async () => {
    const dialect = `dialect: 1
time: { pattern: ["{year}-{month}-{day}T{hour}:{minute}:{second}{offset}", "[{year}-{month}-{day}T{hour}:{minute}:{second}{offset}]"] }
entries: { start: '^\\S' }
records: { as: titled, time: begin }
lines:
  - { when: { title: '^frame$' }, event: exposure-begin }
  - { when: '^dither begins', event: dither-begin }
`;
    const log = await read(dialect, `${NIGHT.slice(0, 7).join('\n')}\n`);
    expect(brief(log)).toEqual([`${stamp(0)}.000Z exposure-begin`, `${stamp(302)}.000Z dither-begin`]);
  });
});

it('an exposure that was given up states no end, the others do', async () => {
  const cards = Array.from({ length: 40 }, (_, i) => [
    '[exposure]',
    `  begin: ${stamp(i * 330)}Z`,
    '  filter: L',
    '  seconds: 300',
    i % 13 === 5 ? `  interrupted: ${stamp(i * 330 + 100)}Z` : `  end: ${stamp(i * 330 + 300)}Z`,
    '[dither]',
    `  begin: ${stamp(i * 330 + 302)}Z`,
    `  end: ${stamp(i * 330 + 306)}Z`,
  ]).flat();
  const found = await countsIn(drafted(cards).yaml, cards);
  expect(found.get('exposure-begin')).toHaveLength(40);
  expect(found.get('frame-saved')).toBeUndefined();
});

it('what is saved at a third time, with its date and its file, was exposed before', async () => {
  const cards = Array.from({ length: 30 }, (_, i) => [
    `[left: frame ${String(i + 1)}]`,
    `  from: ${stamp(i * 330).replace('T', ' ')}`,
    `  to: ${stamp(i * 330 + 300).replace('T', ' ')}`,
    `  stored: ${stamp(i * 330 + 302).replace('T', ' ')}  left_${String(1000 + i)}.fits`,
  ]).flat();
  const found = await countsIn(drafted(cards).yaml, cards);
  const at = (seconds: number): string[] => Array.from({ length: 30 }, (_, i) => `${stamp(i * 330 + seconds)}.000Z`);
  expect(found.get('exposure-begin')).toEqual(at(0));
  expect(found.get('exposure-end')).toEqual(at(300));
  expect(found.get('frame-saved')).toEqual(at(302));
});
