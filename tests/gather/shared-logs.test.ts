import { describe, expect, it } from 'vitest';
import { eachOnce, type NamedLog } from '../../src/gather/shared-logs.js';

const log = (path: string, train?: string, dialect?: string): NamedLog => ({
  file: { path },
  role: train === undefined ? 'guiding-log' : 'event-log',
  ...(train === undefined ? {} : { train }),
  ...(dialect === undefined ? {} : { dialect }),
});

describe('a log that several entries of the rig file name', () => {
  it('is read once, under the train whose id is in its path, else under the first', () => {
    const paths = ['logs/heron.jsonl', 'logs/Wren-2.jsonl', 'logs/night.jsonl'];
    const { logs, warnings } = eachOnce(['heron', 'wren'].flatMap((train) => paths.map((path) => log(path, train))));
    expect(logs.map(({ file, train }) => [file.path, train])).toEqual([
      ['logs/heron.jsonl', 'heron'],
      ['logs/Wren-2.jsonl', 'wren'],
      ['logs/night.jsonl', 'heron'],
    ]);
    expect(warnings.map(({ code, source }) => [code, source?.file])).toEqual(
      paths.map((path) => ['log-of-several-trains', path]),
    );
    expect(warnings[2]?.message).toContain('is named under heron and wren');
  });

  it('is read once without a word where one train names it twice', () => {
    const once = log('logs/heron.jsonl', 'heron');
    expect(eachOnce([once, { ...once }])).toEqual({ logs: [once], warnings: [] });
  });

  it('is read by each dialect, and for events and guiding alike', () => {
    const logs = [log('a.txt', 'heron', 'heron.yaml'), log('a.txt', 'wren', 'wren.yaml'), log('a.txt')];
    expect(eachOnce(logs)).toEqual({ logs, warnings: [] });
  });
});
