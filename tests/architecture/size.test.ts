/** Files and lines that fit a reader's eye. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sourceFiles } from './imports.js';

const LONGEST_FILE = 250;
const LONGEST_LINE = 120;

/** Where a pattern, or a text with values in it, may stand on a wider line: broken in two it is read wrongly. */
const PATTERNS = 'gather/dialects/draft/';
const ONE_PIECE = /\\[pdsb]|\(\?|\$\{|^ *(?:: )?'# /;

const files = sourceFiles();
const linesOf = (file: string): string[] =>
  readFileSync(new URL(`../../src/${file}`, import.meta.url), 'utf8').split('\n');
const tooLong = files.filter((file) => linesOf(file).length - 1 > LONGEST_FILE);
const tooWide = files.flatMap((file) =>
  linesOf(file).flatMap((line, i) => {
    const mayBe = file.startsWith(PATTERNS) && ONE_PIECE.test(line);
    return [...line].length > LONGEST_LINE && !mayBe ? [`${file}:${i + 1}`] : [];
  }),
);

describe('the sources', () => {
  it('are all looked at', () => {
    expect(files.length).toBeGreaterThan(500);
    expect(new Set(files.map((file) => file.split('/')[0])).size).toBeGreaterThan(20);
  });

  it(`have no file of more than ${LONGEST_FILE} lines`, () => {
    expect(tooLong).toEqual([]);
  });

  it(`have no line of more than ${LONGEST_LINE} characters, strings and comments included`, () => {
    expect(tooWide).toEqual([]);
  });
});
