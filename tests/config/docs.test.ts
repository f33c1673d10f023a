import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { KNOWN_KEYS } from '../../src/config/rig-schema.js';

const page = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

/** Rig files among the examples of a page. */
const rigsOf = (path: string): string[] =>
  [...page(path).matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].flatMap(([, text = '']) =>
    /^trains:/m.test(text) ? [text] : [],
  );

describe('the documentation of the rig file', () => {
  it.each(['README.md', 'docs/rig-file.md', 'docs/worth.md'])('%s has an example that is read as it stands', (path) => {
    const rigs = rigsOf(path);
    expect(rigs).toHaveLength(1);
    expect(rigs.flatMap((text) => parseRig('rig.yaml', text).warnings)).toEqual([]);
  });

  it('names every key but those of the rules, which the starter lists', () => {
    const text = page('docs/rig-file.md');
    const keys = Object.entries(KNOWN_KEYS).flatMap(([place, names]) => (place === 'rules' ? [] : names));
    expect(keys.filter((key) => !text.includes(`\`${key}\``) && !text.includes(`{ ${key}`))).toEqual([]);
  });
});
