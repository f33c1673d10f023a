import { expect, it } from 'vitest';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { drafted } from './support/drafted.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const at = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19).replace('T', ' ');

const night = (wheel: (filter: string) => string): string[] =>
  Array.from({ length: 36 }, (_, i) => [
    ...(i % 6 === 0 ? [`${at(i * 200 - 20)} ${wheel(i % 12 === 0 ? 'Ha' : 'OIII')}`] : []),
    `${at(i * 200 + 150)} exposure ${i + 1} finished, 150 s, n${i + 1}.fit`,
  ]).flat();

const reported = (lines: readonly string[]): string[] =>
  drafted(lines).report.rules.flatMap(({ events }) => events.map(({ event }) => event));

it('takes a line that says where the wheel stands for the filter in place, where no other tells of it', () => {
  for (const wheel of ['rueda en', 'wheel at', 'Filterrad steht auf', 'kolo na'])
    expect(reported(night((filter) => `${wheel} ${filter}`)), wheel).toContain('filter-end');
});

it('takes another attempt at reading a device for no beginning', () => {
  for (const text of ['reintento # de leer la rueda', 'retry # of reading the wheel', 'Versuch # das Rad abzulesen'])
    expect([...wordEvidence(text)], text).toEqual([]);
});

it('takes calm in Norwegian and Danish for settling, whoever is calm', () => {
  for (const text of ['montasjen ro', 'ro igjen', 'ro efter # s'])
    expect(
      [...wordEvidence(text)].map(([event]) => event),
      text,
    ).toContain('settling-end');
});
