import { hasField, type EventName } from '../../../model/index.js';
import type { Kind, Slot } from './kinds/kind.js';
import { wordEvidence } from './lexicon/word-evidence.js';
import { wordList } from './lexicon/word-list.js';
import type { DraftRule } from './report.js';
import { near } from './seconds-words.js';

const WHY = wordList(
  'why because cause reason unsafe weather por causa motivo wegen grund car raison per motivo reden powod duvod ' +
    'raison raison* prichin* причин* anledning orsak* arsak grund* syy ok powod* 原因 理由 이유 원인',
);
/** Fields of a record that has failed or is on hold. */
const WHY_FIELD = wordList('cut stopped stop note remark* bemerkung nota notes msg text comment* detail* info* extra');
/** Events that need a reason: what goes as planned has none. */
const WITH_REASON = /^(?:hold-|exposure-abort|focus-end|settling-end|star-gap-begin|guiding-end|dither-end)/;

/** An exposure that is cut short ends. */
const SAME: ReadonlyMap<EventName, EventName> = new Map([['exposure-abort', 'exposure-end']]);
/** What becomes of a frame, or follows, is no reason. */
const RESULTS = wordList('discard* verworfen dropped descartad* jetee rejected retry* repeat* nothing kept deleted');

/** What a part adds to the evidence for an event if it tells that itself: `guiding: stopped`. */
const SAID = 0.5;

function evidenceOf(text: string, event: EventName): number {
  const said = wordEvidence(text);
  return Math.max(said.get(event) ?? 0, said.get(SAME.get(event) ?? event) ?? 0);
}

/** Whether an event is one of those that logs give a reason for. */
export function hasReason(event: EventName): boolean {
  return hasField(event, 'why') && WITH_REASON.test(event);
}

/** Whether a slot states a reason. */
export function saysWhy(slot: Slot): boolean {
  return near(slot, WHY);
}

/** Whether a text of a record whose event has a reason is that. */
export function mayBeWhy(slot: Slot): boolean {
  return slot.path !== null && slot.values.every((value) => !/\d/.test(value)) && near(slot, WHY_FIELD, 1);
}

/** Texts that the cells of a kind hold, in columns of their own: `disk full`. */
export function cellTexts({ slots }: Kind): string[] {
  return slots.flatMap(({ type, path, values }) =>
    type === 'text' && path !== null ? values.slice(0, FEW_TEXTS) : [],
  );
}
const FEW_TEXTS = 3;

/**
 * The part of a message that gives the reason for an event that its words before that tell: behind a colon or another
 * mark, or in brackets, and without numbers. `null` if there is none.
 *
 * @param isTrain a train's name is no reason
 */
export function reasonIn(
  { segments = [] }: Kind,
  event: EventName,
  taken: ReadonlyMap<Slot, string>,
  isTrain: (text: string) => boolean = () => false,
): Slot | null {
  if (!hasReason(event)) return null;
  const found = segments.filter(({ said, slot, within }) => {
    if (slot.values.every(isTrain)) return false;
    if ([...taken.keys()].some((one) => within.includes(one))) return false;
    const [before, whole] = [said, `${said} ${slot.values[0] ?? ''}`].map((text) => evidenceOf(text, event));
    return (before ?? 0) > 0 && (whole ?? 0) <= (before ?? 0) + SAID && !RESULTS.test(slot.values[0] ?? '');
  });
  return found.find(({ isClear }) => isClear)?.slot ?? found[0]?.slot ?? null;
}

/** Whether the reason that a rule captures is so wide that it matches lines of other kinds. */
export function isTooWide(
  { groups, when, kind }: Pick<DraftRule, 'groups' | 'when' | 'kind'>,
  others: readonly Kind[],
): boolean {
  if (typeof when !== 'string' || !capturesReason({ groups, kind })) return false;
  const pattern = regExpOf(when);
  return pattern === null || others.some(({ examples }) => examples.some((text) => pattern.test(text)));
}

/** Evidence of words that say what happens whatever the reason. */
const OUTRIGHT = 2.5;

/**
 * Whether the words before the reason of a rule tell outright that an exposure was aborted: then they do so before
 * other reasons too. Of holds this is not so: what stands down may be the guiding.
 */
export function tellsOutright({ groups, kind, events }: Pick<DraftRule, 'groups' | 'kind' | 'events'>): boolean {
  const said = kind.segments?.find(({ slot }) => groups.has(slot))?.said;
  return (
    said !== undefined && events.some(({ event }) => event === 'exposure-abort' && evidenceOf(said, event) >= OUTRIGHT)
  );
}

/** Whether a rule captures a reason that stands behind a mark. */
export function capturesReason({ groups, kind }: Pick<DraftRule, 'groups' | 'kind'>): boolean {
  return kind.segments?.some(({ slot }) => groups.has(slot)) === true;
}

function regExpOf(pattern: string): RegExp | null {
  try {
    return new RegExp(pattern.replace(/\\x\{([0-9a-f]+)\}/gi, '\\u{$1}'), 'u');
  } catch {
    return null;
  }
}
