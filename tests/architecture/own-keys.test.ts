import { describe, expect, it } from 'vitest';
import { readSource, sourceFiles } from './imports.js';

/**
 * Looking up a name from a file with brackets finds `constructor` and `toString` in every object: such look-ups go
 * through `ownValue`, or a Map. Recognised by the names of such keys here.
 */
const LOOK_UP = /\b[\w.?]+\w(?:\?\.)?\[(?:[\w.]+\.)?(?:train|trainId|id|filter|target|keyword|lead)\](?!\s*[=:](?!=))/g;
/** Tables of ours, looked up by names of ours. */
const OURS = /^(?:views|FIELD_TYPES|RULES|ACCOUNTS)\b/;

describe('names from files', () => {
  it('are looked up among an object’s own keys', () => {
    const offenders = sourceFiles()
      // Rules and literals of a dialect have numbers, and words ids of ours.
      .filter((file) => !file.startsWith('gather/dialects/'))
      .flatMap((file) =>
        [...readSource(file).matchAll(LOOK_UP)]
          .map(([text]) => text)
          .filter((text) => !OURS.test(text))
          .map((text) => `${file}: ${text}`),
      );
    expect(offenders).toEqual([]);
  });
});
