import { increment } from '../../../model/index.js';
import { isShortCode } from './coded-cells.js';
import { codeEntries } from './code-entries.js';
import { escaped } from './escaped.js';
import type { InWords } from './coded.js';
import { isTelling, saysMotion } from './lexicon/said.js';
import type { Reading } from './reading/reading.js';

/** Words at the beginning of a message that may be its code. */
const PLACES = 3;
/** Limits for the number of distinct codes, and minimum fractions of the messages with one, and of these explained. */
const CODES = { least: 4, most: 90 } as const;
const CODED = 0.4;
const EXPLAINED = 0.9;
/** Fraction of meanings that name an event. */
const TELLING = 0.5;
/** Minimum fraction of codes with digits: those of letters only are read as words. */
const NUMBERED = 0.3;
const WORD = /\S+/g;

/**
 * The messages of a log with the meanings from its own legend in place of codes with digits, `17 Ha 300`; `null` if it
 * has no such codes or does not explain them. A meaning becomes one word, so that patterns hold it as one.
 */
export function messagesInWords(reading: Reading): InWords | null {
  const { messages, unstamped } = reading;
  for (let place = 0; place < PLACES; place++) {
    const counts = new Map<string, number>();
    for (const { text } of messages) {
      const code = wordAt(text, place)?.[0] ?? '';
      if (isCode(code)) increment(counts, code);
    }
    const coded = sum(counts.values());
    const numbered = [...counts.keys()].filter((code) => /\d/.test(code));
    if (numbered.length < NUMBERED * counts.size) continue;
    if (coded < CODED * messages.length || counts.size < CODES.least || counts.size > CODES.most) continue;
    const entries = codeEntries(
      unstamped.map(({ text }) => text),
      new Set(counts.keys()),
    );
    const explained = [...counts].filter(([code]) => entries.has(code));
    if (sum(explained.map(([, count]) => count)) < EXPLAINED * coded) continue;
    const meanings = new Map([...entries].map(([code, { meaning }]) => [code, meaning] as const));
    const telling = [...meanings.values()].filter((meaning) => isTelling(meaning) || saysMotion(meaning));
    if (telling.length >= TELLING * counts.size)
      return { ...decoded(reading, place, meanings), legend: new Set([...entries.values()].map(({ line }) => line)) };
  }
  return null;
}

function decoded(reading: Reading, place: number, meanings: ReadonlyMap<string, string>): Omit<InWords, 'legend'> {
  const words = new Map<string, { readonly code: string; readonly meaning: string }>();
  const wordOf = new Map<string, string>();
  for (const [code, meaning] of meanings) {
    let word = meaning.replace(/[^\p{L}]+/gu, '_').replace(/^_|_$/g, '');
    while (words.has(word)) word += '_';
    words.set(word, { code, meaning });
    wordOf.set(code, word);
  }
  const decode = (text: string): string => {
    const found = wordAt(text, place);
    const word = wordOf.get(found?.[0] ?? '');
    if (found === undefined || word === undefined) return text;
    return `${text.slice(0, found.index)}${word}${text.slice(found.index + found[0].length)}`;
  };
  const longestFirst = [...words].sort((a, b) => b[0].length - a[0].length);
  const each = (text: string, of: (one: { code: string; meaning: string }) => string): string =>
    longestFirst.reduce((all, [word, one]) => (all.includes(word) ? all.replaceAll(word, () => of(one)) : all), text);
  const asCode = (text: string): string => each(text, ({ code }) => code);
  const asMeaning = (text: string): string => each(text, ({ meaning }) => meaning);
  return {
    reading: { ...reading, messages: reading.messages.map((one) => ({ ...one, text: decode(one.text) })) },
    asWritten: (kind) => ({
      ...kind,
      examples: kind.examples.map(asCode),
      summary: asCode(kind.summary),
      wording: asMeaning(kind.wording),
      lead: asMeaning(kind.wording.slice(0, kind.lead)).length,
      when: (groups) => {
        const when = kind.when(groups);
        return typeof when === 'string' ? each(when, ({ code }) => escaped(code)) : when;
      },
    }),
  };
}

function isCode(text: string): boolean {
  return isShortCode(text) && /\d|^\p{Lu}+$/u.test(text);
}

function wordAt(text: string, place: number): RegExpExecArray | undefined {
  return [...text.matchAll(WORD)][place];
}

function sum(counts: Iterable<number>): number {
  return [...counts].reduce((all, one) => all + one, 0);
}
