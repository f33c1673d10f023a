import { increment } from '../../../model/index.js';
import { isShortCode } from './coded-cells.js';
import { type CodeMeaning, meaningsOf } from './coded-in-parts.js';
import { escaped } from './escaped.js';
import type { Kind, Slot } from './kinds/kind.js';
import type { InWords } from './coded.js';
import { isTelling, saysMotion } from './lexicon/said.js';
import { plainWords } from './lexicon/plain-words.js';
import { SECONDS_AFTER } from './seconds-words.js';
import type { Reading } from './reading/reading.js';

/** Words at the beginning of a message that may be its code. */
const PLACES = 3;
/** Limits for the number of distinct codes, and minimum fraction of the messages with one. */
const CODES = { least: 4, most: 90 } as const;
const CODED = 0.4;
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
    const texts = unstamped.map(({ text }) => text);
    const found = meaningsOf(texts, counts);
    if (found === null) continue;
    const telling = [...found.meanings.values()].filter(({ meaning }) => isTelling(meaning) || saysMotion(meaning));
    if (telling.length >= TELLING * counts.size)
      return { ...decoded(reading, place, found.meanings), legend: new Set(found.lines) };
  }
  return null;
}

function decoded(reading: Reading, place: number, meanings: ReadonlyMap<string, CodeMeaning>): Omit<InWords, 'legend'> {
  const words = new Map<string, CodeMeaning & { readonly code: string }>();
  const wordOf = new Map<string, string>();
  for (const [code, { meaning, names }] of meanings) {
    let word = meaning.replace(/[^\p{L}]+/gu, '_').replace(/^_|_$/g, '');
    while (words.has(word)) word += '_';
    words.set(word, { code, meaning, names });
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
    asWritten: (kind) => {
      const word = longestFirst.find(([one]) => kind.wording.includes(one));
      const named = withNames(kind, word?.[1].names ?? []);
      return {
        ...named,
        examples: kind.examples.map(asCode),
        summary: asCode(kind.summary),
        wording: asMeaning(kind.wording),
        lead: asMeaning(kind.wording.slice(0, kind.lead)).length,
        when: (groups) => {
          const when = named.when(groups);
          return typeof when === 'string' ? each(when, ({ code }) => escaped(code)) : when;
        },
      };
    },
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

/** A kind whose values have the names that the legend of its code gives them. */
function withNames(kind: Kind, names: readonly string[]): Kind {
  if (names.length === 0 || kind.slots.length !== names.length) return kind;
  const asFound = new Map(kind.slots.map((slot, i) => [withName(slot, names[i] ?? ''), slot] as const));
  return {
    ...kind,
    slots: [...asFound.keys()],
    when: (groups) =>
      kind.when(new Map([...groups].map(([slot, name]): [Slot, string] => [asFound.get(slot) ?? slot, name]))),
  };
}

/** A value with its name before it, and its unit behind it where the name says that it is one. */
function withName(slot: Slot, name: string): Slot {
  const words = plainWords(name).split(' ').filter(Boolean);
  const isTime = slot.type === 'number' && words.some((word) => SECONDS_AFTER.test(word));
  return { ...slot, before: words.reverse(), after: isTime ? 's' : slot.after };
}
