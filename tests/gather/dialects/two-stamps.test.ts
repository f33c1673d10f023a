import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 16, 18, 52, 11);
const pad = (ms: number): string => String(ms).padStart(8, '0');

/** Rows written when a thing is over, both of its ends as milliseconds since the head: 30 exposures and what is between. */
const ROWS = Array.from({ length: 30 }, (_, i) => {
  const beginMs = 4000 + i * 330_000;
  return [
    { begin: beginMs, end: beginMs + 300_120, what: `exposure ${i + 1}, 300 s, Ha, NGC 281` },
    { begin: beginMs + 300_120, end: beginMs + 302_400, what: `saved NGC281_${i + 1}.fits` },
    { begin: beginMs + 304_000, end: undefined, what: 'heartbeat' },
    { begin: beginMs + 306_000, end: beginMs + 309_000, what: 'dither 3.1 px' },
  ];
}).flat();

describe('rows with two counts', () => {
  const lines = [
    'Opened 2026-10-16T20:52:11.000+02:00',
    ...ROWS.map(({ begin, end, what }) => `${pad(begin)}/${end === undefined ? '........' : pad(end)} ${what}`),
  ];
  const { yaml } = drafted(lines);

  it('state when a thing began and when it ended', async () => {
    expect(yaml).toContain("pattern: '{elapsed-ms}/'");
    expect(loadDialect('draft.yaml', yaml).dialect).not.toBeNull();
    const log = await read(yaml, `${lines.join('\n')}\n`);
    const at = (event: string): number[] =>
      log.events.filter((one) => one.event === event).map(({ atMs }) => atMs - T0);
    const rows = (start: string) => ROWS.filter(({ what }) => what.startsWith(start));
    expect(at('exposure-begin')).toEqual(rows('exposure').map(({ begin }) => begin));
    expect(at('exposure-end')).toEqual(rows('exposure').map(({ end }) => end));
    expect(at('dither-begin')).toEqual(rows('dither').map(({ begin }) => begin));
    expect(at('dither-end')).toEqual(rows('dither').map(({ end }) => end));
    // What only happens has happened when its row ends.
    expect(at('frame-saved')).toEqual(rows('saved').map(({ end }) => end));
  });
});
