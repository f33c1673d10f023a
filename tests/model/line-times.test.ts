import { describe, expect, it } from 'vitest';
import { isTelling, lineTimesOf, type LogEvent } from '../../src/model/index.js';

const written = (file: string, train: string | undefined, line: number, atMs: number): LogEvent =>
  ({ event: line % 2 === 0 ? 'note' : 'dither-begin', atMs, train, source: { file, line } }) as LogEvent;

describe('the instants of a log’s lines', () => {
  const events = [
    written('a.txt', 'heron', 1, 10),
    written('a.txt', 'heron', 2, 30),
    written('a.txt', 'wren', 3, 30),
    written('b.txt', 'heron', 1, 5),
    written('a.txt', 'heron', 4, 20),
  ];

  it('are of each file and train, notes among them, in the order of the lines', () => {
    expect(lineTimesOf(events)).toEqual([
      { file: 'a.txt', train: 'heron', atMs: [10, 30, 20] },
      { file: 'a.txt', train: 'wren', atMs: [30] },
      { file: 'b.txt', train: 'heron', atMs: [5] },
    ]);
  });

  it('stay in that order where the log begins with its last line', () => {
    expect(lineTimesOf(events.toReversed())).toContainEqual({ file: 'a.txt', train: 'heron', atMs: [10, 30, 20] });
  });

  it('are all that a note tells', () => {
    expect(events.filter(isTelling).map(({ source }) => source.line)).toEqual([1, 3, 1]);
  });
});
