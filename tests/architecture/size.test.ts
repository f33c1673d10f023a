/** Files and lines that fit a reader's eye. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sourceFiles } from './imports.js';

const LONGEST_FILE = 250;
const LONGEST_LINE = 120;

/** A folder with lines that are wider: word lists of many languages and patterns made of them, for the most part. */
const STILL_WIDE: readonly string[] = ['gather/dialects/draft/'];

const files = sourceFiles();
const linesOf = (file: string): string[] =>
  readFileSync(new URL(`../../src/${file}`, import.meta.url), 'utf8').split('\n');
const tooLong = files.filter((file) => linesOf(file).length - 1 > LONGEST_FILE);
const tooWide = files.flatMap((file) =>
  linesOf(file).flatMap((line, i) => ([...line].length > LONGEST_LINE ? [`${file}:${i + 1}`] : [])),
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
    expect(tooWide.filter((place) => !STILL_WIDE.some((start) => place.startsWith(start)))).toEqual([]);
  });
});
