/** Files and lines that fit a reader's eye. */
import { describe, expect, it } from 'vitest';
import { readSource, sourceFiles } from './imports.js';

/** Folders of src that keep both limits. A folder is added when the last of its files does, until this is all of src. */
const KEPT = [
  'account',
  'config',
  'files',
  'gather/dialects/pattern',
  'gather/dialects/records',
  'gather/event-log',
  'gather/fits',
  'gather/guiding-log',
  'gather/lines',
  'outlook',
  'progress',
  'reconstruct',
  'record',
  'report/design',
  'report/edition',
  'report/formats',
  'report/pdf',
  'report/text',
  'sky',
];
const LONGEST_FILE = 250;
const LONGEST_LINE = 120;

const files = sourceFiles().filter((file) => KEPT.some((folder) => file.startsWith(`${folder}/`)));
const linesOf = (file: string): string[] => readSource(file).split('\n');

describe('the sources', () => {
  it.each(KEPT)('of %s are there', (folder) => {
    expect(files.some((file) => file.startsWith(`${folder}/`))).toBe(true);
  });

  it(`have no file of more than ${LONGEST_FILE} lines`, () => {
    expect(files.filter((file) => linesOf(file).length - 1 > LONGEST_FILE)).toEqual([]);
  });

  it(`have no line of more than ${LONGEST_LINE} characters, strings and comments included`, () => {
    const long = files.flatMap((file) =>
      linesOf(file).flatMap((line, i) => ([...line].length > LONGEST_LINE ? [`${file}:${i + 1}`] : [])),
    );
    expect(long).toEqual([]);
  });
});
