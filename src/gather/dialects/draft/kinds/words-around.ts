import { plainWords } from '../lexicon/plain-words.js';
import type { Template } from '../template-tree.js';

/** A day and its month, or a whole date. */
const DAY =
  /^(?:(?:20\d{2}[-./](?:0?[1-9]|1[0-2])[-./]\d{1,2}|\d{1,2}[-./]\d{1,2}[-./](?:20)?\d{2})|(?:0?[1-9]|[12]\d|3[01])[./](?:0?[1-9]|1[0-2])|(?:0?[1-9]|1[0-2])[-/](?:0?[1-9]|[12]\d|3[01]))$/;

/** Start of a time of day preceded by day and month: `begun: 28.03. 20:31:13`. */
export function dateBefore(template: Template, clock: number): number {
  const at = template.tokens[clock - 1] === '.' ? clock - 2 : clock - 1;
  const values = [...(template.wildcards.get(at)?.values ?? [])];
  return values.length > 0 && values.every((value) => DAY.test(value)) ? at : clock;
}

/** The three words before a token, nearest first, without marks. */
export function wordsBefore(template: Template, i: number): string[] {
  const words: string[] = [];
  for (let k = i - 1; k >= 0 && words.length < 3 && i - k <= 7; k--) {
    const token = template.tokens[k];
    if (token === null || token === undefined) break;
    const plain = plainWords(token);
    if (plain !== '') words.push(...plain.split(' ').reverse());
    // Text on the line above belongs to something else.
    if (template.gaps[k] === 'line') break;
  }
  return words;
}

const OF_ARC = /^(?:d['’])?(?:arco?|łuku|luku|oblouku)$/iu;

/** The word or arrow directly after a token. */
export function wordAfter(template: Template, i: number): string {
  const next = template.tokens[i + 1] ?? '';
  if (next === '-' && template.tokens[i + 2] === '>') return '->';
  // `14,4 sekundy łuku`, `secondi d’arco` are angles.
  if (template.tokens.slice(i + 2, i + 4).some((token) => token !== null && OF_ARC.test(token))) return 'arcsec';
  return plainWords(next) === '' ? next : plainWords(next);
}
