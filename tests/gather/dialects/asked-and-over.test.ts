import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const EVENING_S = Date.UTC(2026, 9, 14, 19) / 1000;

/** Exposures of two trains, logged as they begin, with the requested seconds, and again when they are over. */
const LINES = Array.from({ length: 40 }, (_, i) => [
  { train: 'heron', atS: 10 + i * 310.4, seconds: 300 },
  { train: 'wren', atS: 11.2 + i * 310.4, seconds: 200 },
])
  .flat()
  .flatMap(({ train, atS, seconds }) => [
    { atS, text: `train=${train} step=belichting status=begin duur=${seconds} filter=Ha` },
    { atS: atS + seconds + 0.6, text: `train=${train} step=belichting status=klaar` },
  ])
  .sort((a, b) => a.atS - b.atS)
  .map(({ atS, text }) => `t=${(EVENING_S + atS).toFixed(1)} ${text}`);

describe('a word for a length that may be what was asked for', () => {
  it('ends nothing where a line of its own says that it is over', async () => {
    const { yaml } = drafted(LINES);
    const { events } = await read(yaml, `${LINES.join('\n')}\n`);
    const ends = events.filter(({ event }) => event === 'exposure-end').map(({ atMs }) => atMs);
    const reported = LINES.filter((line) => line.includes('klaar')).map((line) => Number(line.slice(2, 14)) * 1000);
    expect(ends, yaml).toEqual(reported);
  });
});
