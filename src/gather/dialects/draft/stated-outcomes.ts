import { beginOf, hasField, type EventName } from '../../../model/index.js';
import { saysWhy } from './reasons.js';
import type { Kind, Slot } from './kinds/kind.js';
import { plainWords } from './lexicon/plain-words.js';
import { wordList } from './lexicon/word-list.js';
import { saysInVain } from './lexicon/said.js';
import type { DraftRule } from './report.js';

/** If most reported spans failed, the words mean something else. */
const AT_MOST = 0.5;
/** Shutter closings hardly ever belong to failed exposures. */
const OF_EXPOSURES = 0.25;
/** A field states outcomes in few different texts. */
const MOST_TEXTS = 8;

/** Names of outcomes, of return codes, and of what is _no_ after a failure. */
const OUTCOME = wordList(
  'result* outcome status verdict resultado ergebnis esito risultato wynik vysledek stav stan etat estado zustand',
);
const CODE = wordList('rc ret* code err* exit fehler* erreur* errore erro fout* blad chyba');
const GOOD = wordList('ok okay good success* gut bien bene bom goed dobrze dobre passed valid 成功 結果 성공');
const NO = /^(?:no|n|false|0|nein|non|nee|nie|ne|n[aã]o|いいえ|否|아니오|nok|ko)$/iu;

/** The rules with the outcomes that their lines state. */
export function withOutcomes(rules: readonly DraftRule[]): DraftRule[] {
  // `Done, no star larger than 3 px` is said of most: then a plain _no_ means nothing.
  const readings = [true, false].map((isByNot) => rules.filter(({ kind }) => saysInVain(kind.wording, isByNot)));
  const inVainOf = (event: EventName): readonly DraftRule[] =>
    readings.find((inVain) => countOf(inVain, event) <= shareOf(event) * countOf(rules, event)) ?? [];
  return rules.map((rule) => {
    const ends = rule.events.map(({ event }) => event).filter((event) => beginOf(event) && hasField(event, 'ok'));
    if (ends.length === 0) return rule;
    if (ends.every((event) => inVainOf(event).includes(rule))) return { ...rule, outcome: 'failed' };
    return withPlace(rule, Math.min(...ends.map(shareOf)));
  });
}

function countOf(rules: readonly DraftRule[], wanted: EventName): number {
  return rules.reduce((sum, { events, count }) => sum + (events.some(({ event }) => event === wanted) ? count : 0), 0);
}

function shareOf(event: EventName): number {
  return event.startsWith('exposure') ? OF_EXPOSURES : AT_MOST;
}

/** The rule with the field that states the outcome, if there is one. */
function withPlace(rule: DraftRule, share: number): DraftRule {
  for (const slot of rule.kind.slots) {
    const failed = failedTexts(slot, rule.kind, share);
    if (failed.length === 0) continue;
    if (slot.path !== null) return { ...rule, outcome: { place: slot.path, failed } };
    // Its text is already a field of the event.
    if (rule.groups.has(slot)) continue;
    const groups = new Map([...rule.groups, [slot, 'outcome'] as const]);
    return { ...rule, when: rule.kind.when(groups), groups, outcome: { place: 'outcome', failed } };
  }
  return rule;
}

/** The texts of a field that mean failure; none if it states something else. */
function failedTexts(slot: Slot, kind: Kind, share: number): readonly string[] {
  if (slot.type === 'clock' || slot.type === 'file' || slot.type === 'designation' || saysWhy(slot)) return [];
  const texts = [...new Set(slot.perLine.filter((text) => text !== undefined && text !== ''))] as string[];
  if (texts.length < 2 || texts.length > MOST_TEXTS) return [];
  const name = slot.before[0] ?? '';
  const isTruth = texts.every((text) => /^(?:true|false)$/i.test(text));
  const failed = texts.filter((text) => (isTruth ? /^false$/i.test(text) : saysSo(text, plainWords(name))));
  const lines = slot.perLine.filter((text) => text !== undefined && failed.includes(text)).length;
  return failed.length < texts.length && lines <= share * kind.count ? failed : [];
}

function saysSo(text: string, name: string): boolean {
  if (NO.test(text)) return GOOD.test(name) || (text !== '0' && OUTCOME.test(name));
  // None means success.
  if (/^-?\d+$/.test(text)) return CODE.test(name);
  return /\p{L}|[✗✘×]/u.test(text) && (/[✗✘×]/u.test(text) || saysInVain(text));
}
