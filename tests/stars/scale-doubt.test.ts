import { expect, it } from 'vitest';
import type { PairPointing } from '../../src/model/index.js';
import { scaleDoubts } from '../../src/stars/pointing/scale-doubt.js';

it('pixel scales that the stars contradict are doubted, within some per cent they are not', () => {
  // 3.76 µm behind 480 and 600 mm: 1.6158″ and 1.2926″ a pixel, in radians of 206,265″.
  const scales = new Map([
    ['heron', (206.265 * 3.76) / 480],
    ['wren', (206.265 * 3.76) / 600],
  ]);
  const pair = (scaleRatio: number, matched = 60) => [
    { target: 'NGC 281', trains: ['heron', 'wren'], scaleRatio, matched } as unknown as PairPointing,
  ];
  expect(scaleDoubts(pair(1.25), scales)).toEqual([]);
  expect(scaleDoubts(pair(1.25 * 1.04), scales)).toEqual([]);
  // Wren has a reducer of 0.8 that no header states.
  const [doubt] = scaleDoubts(pair(1), scales);
  expect(doubt).toMatchObject({ code: 'scale-contradicted', train: 'wren' });
  expect(doubt?.message).toContain('as wide on the sky as 1.00 of wren; focal lengths and pixel sizes make it 1.25');
  expect(scaleDoubts(pair(1, 8), scales)).toEqual([]);
  expect(scaleDoubts(pair(1), new Map())).toEqual([]);
});
