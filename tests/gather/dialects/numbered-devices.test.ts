import { describe, expect, it } from 'vitest';
import { wordsWithNumbers } from '../../../src/gather/dialects/draft/kinds/numbered-words.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const stamp = (s: number): string => new Date(T0 + s * 1000).toISOString().slice(0, 19);

describe('devices that are named by a number written to a word', () => {
  it('are distinguished where their exposures overlap', async () => {
    const rows: [at: number, text: string, truth: string][] = [];
    for (const [n, seconds] of [
      [1, 240],
      [2, 150],
    ] as const)
      for (let i = 0, at = 30 + n; i < 20; i++, at += seconds + 8) {
        rows.push([at, `${n}番鏡、撮影開始 ${seconds}秒 L`, 'exposure-begin']);
        rows.push([at + seconds, `${n}番鏡、撮影終了`, 'exposure-end']);
        rows.push([at + seconds + 3, `${n}番鏡、画像保存 k${n}_${String(i).padStart(3, '0')}.fits`, 'frame-saved']);
      }
    rows.sort((a, b) => a[0] - b[0]);
    const lines = rows.map(([at, text]) => `${stamp(at)} ${text}`);
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    const reported = brief(log).map((line) => line.split(' ').slice(0, 2).join(' '));
    expect(reported).toEqual(rows.map(([at, , truth]) => `${stamp(at)}.000Z ${truth}`));
    for (const train of ['1', '2'])
      expect(log.events.filter((event) => event.event === 'frame-saved' && event.train === train)).toHaveLength(20);
  });

  it('are distinguished by a word and its number as well, and what is counted or measured is no device', async () => {
    const rows: [at: number, text: string, truth: string][] = [];
    for (const [n, seconds] of [
      [1, 240],
      [2, 150],
    ] as const)
      for (let i = 0, at = 30 + n; i < 20; i++, at += seconds + 8) {
        rows.push([at, `camera ${n}: exposure ${i + 1} begins, ${seconds} s`, 'exposure-begin']);
        rows.push([at + seconds, `camera ${n}: exposure ${i + 1} ends`, 'exposure-end']);
      }
    rows.sort((a, b) => a[0] - b[0]);
    const lines = rows.map(([at, text]) => `${stamp(at)} ${text}`);
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    const reported = brief(log).map((line) => line.split(' ').slice(0, 2).join(' '));
    expect(reported).toEqual(rows.map(([at, , truth]) => `${stamp(at)}.000Z ${truth}`));
    for (const train of ['1', '2'])
      expect(log.events.filter((event) => event.event === 'exposure-end' && event.train === train)).toHaveLength(20);
    const goals = [12, 7, 1, 12.5, 2, 1, 7, 2].map((goal) => `goal ${goal} degrees`);
    expect(wordsWithNumbers(goals).size).toBe(0);
    expect([...wordsWithNumbers(['tube #1: on', 'tube #2: on', 'tube #1: off'])]).toEqual(['tube 1', 'tube 2']);
  });
});
