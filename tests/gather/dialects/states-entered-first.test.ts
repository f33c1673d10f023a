import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);

/** Records of two posts, whose states stand in front of those they leave, and others that share nothing with these. */
function night(): { lines: string[]; truth: string[] } {
  const rows: { at: number; record: object; truth?: readonly string[] }[] = [];
  ['east', 'west'].forEach((post, k) => {
    for (let i = 0; i < 12; i++)
      rows.push({
        at: 60 * i + k,
        record: { post, chip: 9 - 1.7 * i, goal: 5 - 5 * Math.floor(i / 3), drive: 10 + i },
      });
    for (let i = 0; i < 4; i++) rows.push({ at: 750 + 5 * i + k, record: { post, plate: i + 1, off: 6.2 - 1.7 * i } });
    let at = 800 + k;
    for (let i = 0; i < 15; i++) {
      const sub = { now: 'exposing', was: 'free', sub: i + 1, length_s: 120, filter: 'L' };
      rows.push({ at, record: { post, ...sub }, truth: [`exposure-begin ${post}`] });
      const read = { post, now: 'reading out', was: 'exposing', sub: i + 1 };
      rows.push({ at: (at += 120), record: read, truth: [`exposure-end ${post}`] });
      const file = `${post}_${i + 1}.fits`;
      const saved = { post, now: 'free', was: 'reading out', written: file };
      rows.push({ at: (at += 3), record: saved, truth: [`frame-saved ${post}`] });
      at += 2;
    }
  });
  rows.sort((a, b) => a.at - b.at);
  return {
    lines: rows.map(({ at, record }) => JSON.stringify({ t: T0 + at * 1000, ...record })),
    truth: rows.flatMap(({ at, truth = [] }) => truth.map((one) => `${new Date(T0 + at * 1000).toISOString()} ${one}`)),
  };
}

describe('records that name the state entered before the one left', () => {
  it('are read the right way round, and what only shares its post with others apart', async () => {
    const { lines, truth } = night();
    const { yaml } = drafted(lines, 'night.jsonl');
    const log = await read(yaml, `${lines.join('\n')}\n`, { name: 'night.jsonl' });
    const events = brief(log).map((line) => line.split(' {')[0] ?? '');
    expect(events.filter((line) => !line.includes('cooler')).sort()).toEqual(truth.toSorted());
    // A target that is taken down in steps, and a chip that follows it: a cooler, whatever it is called.
    expect(events.filter((line) => line.includes('cooler'))).toHaveLength(24);
  });
});
