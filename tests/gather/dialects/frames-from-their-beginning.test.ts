import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const iso = (s: number): string => new Date(T0 + s * 1000).toISOString();

it('frames state their beginning, length and file where other rows state both ends', async () => {
  const rows: [at: number, row: object][] = [];
  const truth: string[] = [];
  let at = 60;
  const both = (what: string, event: string, seconds: number, more: object): void => {
    rows.push([at, { what, from: iso(at), to: iso(at + seconds), ...more }]);
    truth.push(`${iso(at)} ${event}-begin`, `${iso(at + seconds)} ${event}-end`);
    at += seconds + 2;
  };
  for (let i = 0; i < 24; i++) {
    if (i % 8 === 0) both('slew', 'slew', 40, { target: `NGC ${281 + i}` });
    if (i % 8 === 0) both('filter change', 'filter', 5, { filter: 'Ha' });
    if (i % 6 === 0) both('focusing', 'focus', 80, { position: 6100 + i });
    rows.push([at, { what: 'frame', from: iso(at), seconds: 180, filter: 'Ha', file: `ha_${i}.fits` }]);
    truth.push(`${iso(at)} exposure-begin`, `${iso(at + 180)} exposure-end`);
    at += 184;
    const calm = at + 5 + 8 + (i % 5);
    truth.push(`${iso(calm)} settling-end`);
    both('dither', 'dither', 5, { calm: iso(calm), dx: 1.5 - (i % 4) });
    at = calm + 2;
  }
  const lines = rows.map(([, row]) => JSON.stringify(row));
  const { yaml } = drafted(lines, 'night.jsonl');
  const log = await read(yaml, `${lines.join('\n')}\n`, { name: 'night.jsonl' });
  const reported = brief(log).map((line) => line.split(' {')[0] ?? '');
  expect(reported.filter((line) => !line.includes('settling-begin')).sort()).toEqual(truth.toSorted());
});
