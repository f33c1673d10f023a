import { expect, it } from 'vitest';
import { disjoint } from '../../../src/gather/dialects/draft/kinds/disjoint-fields.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { drafted } from './support/drafted.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString().slice(0, 19);

it('a length that its end states again is one to come, although everything is logged on time', () => {
  const lines = Array.from({ length: 14 }, (_, i) => [
    `${stamp(i * 140)} t=${i} do=belichting status=geopend duur=120s`,
    `${stamp(i * 140 + 120)} t=${i} do=belichting status=gereed gemaakt=120s`,
    `${stamp(i * 140 + 122)} t=${i} do=dither status=geopend`,
    `${stamp(i * 140 + 125)} t=${i} do=dither status=gereed`,
  ]).flat();
  const { report } = drafted(lines);
  const reported = report.rules.map(({ events, lasted, lasts }) => [events.map(({ event }) => event), lasted ?? lasts]);
  expect(reported).toContainEqual([['exposure-begin'], undefined]);
  expect(reported).toContainEqual([['exposure-end'], undefined]);
  expect(reported).toContainEqual([['dither-end'], undefined]);
});

it('records of one writer part by what they have besides, though all of them have a number, or a dash for it', () => {
  const lines = [
    { from: 'heron', id: '-', chip: '3.1', aim: '-10' },
    { from: 'heron', id: '-', stance: 'still', for: 'shift' },
  ].flatMap((fields) =>
    [0, 1, 2].map((i) => ({ fields: new Map(Object.entries(fields)), line: i + 1, atMs: i * 1000 })),
  );
  const parts = disjoint(lines, ['from'], []);
  expect(parts.map(({ lines: own, present }) => [own.length, present])).toEqual([
    [3, ['chip']],
    [3, ['stance']],
  ]);
  // One sort of record, some with a remark: they stay together.
  const remarked = lines.slice(0, 3).map((line, i) => ({
    ...line,
    fields: new Map([...line.fields].filter(([path]) => i > 0 || path === 'from' || path === 'id')),
  }));
  expect(disjoint([...remarked, ...remarked], ['from'], [])).toHaveLength(1);
});

it.each(['dither gereed', 'dither listo', 'dither pronto'])('%s: ready for it, or done with it', (wording) => {
  const evidence = wordEvidence(wording);
  expect(evidence.get('dither-end')).toBeGreaterThan(2);
  expect(evidence.get('dither-ready')).toBeGreaterThan(2);
  expect(wordEvidence('cámara lista').has('exposure-end')).toBe(false);
});
