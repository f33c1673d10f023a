import { draftDialect, type Draft, type LogSample } from '../../../../src/gather/dialects/index.js';

/** The lines of a log as a sample that holds all of it. */
export function sampleOf(lines: readonly string[], file = 'night.log'): LogSample {
  return { file, lines, totalLines: lines.length, encoding: 'utf-8', lineEnding: 'LF', warnings: [] };
}

/** The draft of a log's lines. */
export function drafted(lines: readonly string[], file?: string): Draft {
  return draftDialect(sampleOf(lines, file));
}
