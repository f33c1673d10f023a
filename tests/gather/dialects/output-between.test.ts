import { describe, expect, it } from 'vitest';
import { isOutputBetween } from '../../../src/gather/dialects/draft/reading/output-between.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const FRAMES = 24;
const LENGTH_SECONDS = 120;

/** A script's log: what its commands write stands between its own lines, without a time. */
function scriptLog(withWatch: boolean): string[] {
  const lines: string[] = [];
  let atMs = T0;
  const say = (text: string, afterSeconds: number): void => {
    atMs += afterSeconds * 1000;
    lines.push(`${new Date(atMs).toISOString().slice(0, 19)}Z  ${text}`);
  };
  say('pointing at M 33', 5);
  lines.push('   axes: following');
  for (let i = 0; i < FRAMES; i++) {
    say(`exposing ${LENGTH_SECONDS}s in L of M 33, number ${i + 1}`, i % 3 === 0 ? 18 : 2);
    // What watches the room left on the disk writes whenever it likes.
    if (withWatch && i % 4 === 1) say(`room left: ${400 - i} units`, 1);
    lines.push('   pixels fetched');
    say(`saved m33_${String(i).padStart(4, '0')}.fits`, LENGTH_SECONDS + 2);
    if (i % 3 !== 2) continue;
    say(`nudging by ${(2 + i / 10).toFixed(1)} px, then waiting for calm`, 1);
    lines.push('   calm');
  }
  return lines;
}

function countOf(events: readonly { readonly event: string }[], name: string): number {
  return events.filter(({ event }) => event === name).length;
}

describe('lines without a stamp', () => {
  it('are other programs’ output where another line comes between a command and its output', () => {
    const rows = (lines: readonly string[]): { text: string; message: string | null }[] =>
      lines.map((text) => ({ text, message: text.startsWith(' ') ? null : text.slice(22) }));
    expect(isOutputBetween(rows(scriptLog(true)))).toBe(true);
    expect(isOutputBetween(rows(scriptLog(false)))).toBe(false);
  });

  it.each([true, false])('tell what came of a thing later, and no second thing at its stamp: %s', async (withWatch) => {
    const lines = scriptLog(withWatch);
    const { events } = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
    expect(countOf(events, 'exposure-begin')).toBe(FRAMES);
    expect(countOf(events, 'dither-begin')).toBe(FRAMES / 3);
    expect(countOf(events, 'settling-end')).toBe(0);
    expect(countOf(events, 'dither-end')).toBe(0);
  });
});

describe('a line that says what will follow', () => {
  it.each([
    ['nudge of # px, then wait for calm', 'dither-begin'],
    ['Versatz um # px, dann Warten auf Ruhe', 'dither-begin'],
    ['filter in place, then focus', 'filter-end'],
    ['追尾開始、その後 露光', 'guiding-begin'],
  ])('tells what stands before that: %s', (wording, event) => {
    expect([...wordEvidence(wording)].sort((a, b) => b[1] - a[1])[0]?.[0]).toBe(event);
  });
});
