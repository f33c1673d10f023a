import { saidBy } from '../lexicon/said.js';
import type { Kind } from './kind.js';
import { SAID } from './source-path.js';

/** Text in brackets, or a word or two before a colon or bar, or in a separate column; marks may precede it. */
const TAG =
  /^[^\p{L}<([{]*(?:[<([{]([^<>()[\]{}]{1,30})[>)\]}]+[\s:]*|(\p{L}[\p{L}\p{N}#/_.-]*(?:\[[^\]]*\])?(?: \p{L}[\p{L}#/_.-]*)?)\s*(?:[|\]]+\s*|:\s+|\s{2,}|\s[-–—]\s))(?=\S)/u;
/** The first word of nearly all lines, such as a computer's name. */
const FIRST = /^[^\p{L}]*\p{L}[\p{L}\p{N}_.-]*\s+(?=\S)/u;
const NEARLY_ALL = 0.9;
const MAX_TAGS = 3;
/** A tag occurs on lines of several kinds, and most kinds have one in its place. */
const MIN_KINDS = 2;
const MOSTLY = 0.6;
/** A bracket on all lines is a tag, even if the rest is less informative on its own. */
const SAID_BESIDE_BRACKETS = 0.5;

/**
 * The kinds with the front of their wording marked as the source, if it names the device or program component that
 * wrote the lines: `[mount] …`, `wheel: …`, a first column. It hints at the subject; the rest of the line is the
 * message.
 */
export function withSources(kinds: readonly Kind[]): readonly Kind[] {
  let marked = withoutFirst(kinds);
  for (let depth = 0; depth < MAX_TAGS; depth++) {
    const tags = new Map(marked.map((kind) => [kind, TAG.exec(kind.wording.slice(kind.lead))] as const));
    const counts = new Map<string, number>();
    for (const found of tags.values())
      if (found !== null) counts.set(nameIn(found), (counts.get(nameIn(found)) ?? 0) + 1);
    const isTag = (kind: Kind): boolean => {
      const found = tags.get(kind) ?? null;
      return found !== null && (counts.get(nameIn(found)) ?? 0) >= MIN_KINDS;
    };
    const tagged = marked.filter(isTag);
    const said = tagged.reduce((sum, { wording, lead }) => sum + saidBy(wording.slice(lead).replace(TAG, '')), 0);
    const isBracketed = tagged.every((kind) => tags.get(kind)?.[1] !== undefined);
    const least = isBracketed ? SAID_BESIDE_BRACKETS : SAID;
    if (tagged.length < MOSTLY * marked.length || said < least * tagged.length) break;
    marked = marked.map((kind) =>
      isTag(kind) ? { ...kind, lead: kind.lead + (tags.get(kind)?.[0].length ?? 0) } : kind,
    );
  }
  return marked;
}

/** The kinds with a word marked that precedes nearly all of them. */
function withoutFirst(kinds: readonly Kind[]): readonly Kind[] {
  const counts = new Map<string, number>();
  const firsts = kinds.map(({ wording }) => FIRST.exec(wording)?.[0] ?? '');
  for (const first of firsts) counts.set(first.trim(), (counts.get(first.trim()) ?? 0) + 1);
  const [common] = [...counts].find(([word, count]) => word !== '' && count >= NEARLY_ALL * kinds.length) ?? [];
  if (common === undefined) return kinds;
  return kinds.map((kind, i) => (firsts[i]?.trim() === common ? { ...kind, lead: firsts[i].length } : kind));
}

function nameIn([, bracketed, word]: RegExpExecArray): string {
  return (bracketed ?? word ?? '').toLowerCase();
}
