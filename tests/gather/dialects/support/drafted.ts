import { createHash } from 'node:crypto';
import { draftDialect, type Draft, type LogSample } from '../../../../src/gather/dialects/index.js';

/** The lines of a log as a sample that holds all of it. */
export function sampleOf(lines: readonly string[], file = 'night.log'): LogSample {
  return { file, lines, totalLines: lines.length, encoding: 'utf-8', lineEnding: 'LF', warnings: [] };
}

/** Drafts by what they are made of: several tests ask of one draft what each kind of event came to. */
const known = new Map<string, Draft>();
/** As many as one file of tests has logs. */
const MOST = 20;

/** The draft of a log's lines; of the same lines the same. */
export function drafted(lines: readonly string[], file?: string): Draft {
  const key = createHash('sha1')
    .update(JSON.stringify([file, lines]))
    .digest('base64');
  const draft = known.get(key) ?? draftDialect(sampleOf(lines, file));
  if (known.size >= MOST) known.clear();
  known.set(key, draft);
  return draft;
}
