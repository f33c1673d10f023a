import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { HELD_OUT, KNOWN, written } from './support/corpus.js';

const FOLDER = join(dirname(fileURLToPath(import.meta.url)), 'corpus');

describe('the corpus of invented formats', () => {
  it.each([...KNOWN, ...HELD_OUT].map((format, i) => [format.name, format, i] as const))(
    '%s is what the generator writes',
    (name, format, i) => {
      const { log, truth } = written(format, 20_261_014 + i * 101);
      const logFile = join(FOLDER, `${name}.log`);
      const truthFile = join(FOLDER, `${name}.truth.jsonl`);
      if (process.env.WRITE_CORPUS === '1') {
        mkdirSync(FOLDER, { recursive: true });
        writeFileSync(logFile, log);
        writeFileSync(truthFile, truth);
      }
      expect(readFileSync(logFile).equals(log)).toBe(true);
      expect(readFileSync(truthFile, 'utf8')).toBe(truth);
    },
  );
});
