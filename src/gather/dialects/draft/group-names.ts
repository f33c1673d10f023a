import { beginOf, type EventName, type FieldName } from '../../../model/index.js';
import type { Kind, Slot } from './kinds/kind.js';
import { coolerFacts } from './cooler-facts.js';
import { focusFacts } from './focus-facts.js';
import { isRunning } from './kinds/running-numbers.js';
import { isSpelt } from './kinds/spelt-lengths.js';
import { isCount, numberIn } from './kinds/values.js';
import { wordList } from './lexicon/word-list.js';
import { hasReason, mayBeWhy, saysWhy } from './reasons.js';
import { EXPOSED, FROM_TO, isOfArc, LASTED, near, OF_LENGTH, SECONDS_AFTER, SECONDS_BEFORE } from './seconds-words.js';

/** The target of a capture: a field of the event, or `took`, its duration. */
export type SlotName = FieldName | 'took';

const TOOK = wordList(
  `took fatti effettiv* effectiv* efectiv* measured misurat* medido takes after in lasted lasting lasts dauernd elapsed
    duration tardo duro tras dauerte nach dauer duur dure duree apres en trwal* zajal* zajelo trval* trvalo duurde na
    dopo durata
    durato trva trwa durou levou apos 用时 用時 耗时 所要 経過 걸린 소요 경과 wait* espera* warte* attente attesa wachttijd
    czas cas time took_s dt trwani* duracion duracao ${OF_LENGTH}`,
);
const PIXELS = wordList('px pix pixel* bildpunkt* bp distance dist 像素 ピクセル 픽셀 화소');
const FILTER = wordList('filter* filtro filtre filtr filtru 滤镜 フィルター 필터');
/** Which slots of a kind, other than those taken, fill which fields of its event; each name is used once. */
export function slotNames(
  kind: Kind,
  event: EventName,
  seconds: Slot | null,
  taken: ReadonlyMap<Slot, string> = new Map(),
): Map<Slot, SlotName> {
  const names = new Map<Slot, SlotName>();
  const used = new Set<SlotName>();
  const put = (slot: Slot, name: SlotName | null): void => {
    if (name === null || used.has(name) || names.has(slot) || taken.has(slot)) return;
    names.set(slot, name);
    used.add(name);
  };
  if (seconds !== null && event.startsWith('exposure')) put(seconds, 'seconds');
  const actual =
    event.startsWith('exposure') && beginOf(event) !== undefined
      ? ((event === 'exposure-abort' ? null : actualOf(kind)) ?? shortOf(kind, event))
      : null;
  if (actual !== null && actual !== seconds) put(actual, 'took');
  const measured = kind.slots.filter((slot) => !taken.has(slot) && tookUnit(slot) === null);
  for (const [slot, name] of focusFacts(kind, event, measured)) put(slot, name);
  for (const slot of kind.slots) put(slot, surely(slot, event));
  for (const slot of kind.slots) put(slot, likely(slot, event));
  if (event === 'cooler') for (const [slot, name] of coolerFacts(kind)) put(slot, name);
  return names;
}

const MILLISECONDS = wordList('ms millis*');
const TO_FILTER = wordList('to zu nach a al vers filter filtro filtre na auf');
const TARGET = wordList('target object obj objeto objet objekt ziel oggetto cel cil 目标 目標');

/** Whether the slot states a duration in seconds. */
export function isTook(slot: Slot): boolean {
  return slot.type === 'number' && tookUnit(slot) !== null && near(slot, TOOK, 3);
}

/** Whether the lines of a kind state a duration: a number that never changes is a limit, not a duration. */
export function statesTook(kind: Kind): boolean {
  const { slots, count } = kind;
  return slots.some((slot) => isTook(slot) && !(count >= MANY && slot.values.length === 1)) || actualOf(kind) !== null;
}
const MANY = 4;

/** Seconds per unit of a duration, `null` without a unit of time next to it. */
export function tookUnit(slot: Slot): number | null {
  if (isOfArc(slot)) return null;
  if (isSpelt(slot)) return 1;
  if (/^(?:ms|millis\w*)$/.test(slot.after) || (slot.path !== null && near(slot, MILLISECONDS, 1))) return 0.001;
  // `Durée (min)`, `took_min`
  if (
    slot.path !== null &&
    MINUTES.test(slot.before[0] ?? '') &&
    (near(slot, TOOK, 3) || near(slot, SECONDS_BEFORE, 3) || near(slot, EXPOSED, 3))
  )
    return 60;
  // `took_s`: the last word of a field's name is its unit.
  if (slot.path !== null && near(slot, SECONDS_AFTER, 1)) return 1;
  if (near(slot, LASTED, 1) && !/[\p{L}"'″′%°]/u.test(slot.after)) return 1;
  if (MINUTES.test(slot.after)) return 60;
  return SECONDS_AFTER.test(slot.after) || near(slot, SECONDS_BEFORE) ? 1 : null;
}
const MINUTES = /^(?:mins?|mn|minut\p{L}*|分(?:钟|鐘|間)?|분)$/iu;

/** Minimum number and fraction of lines that state an actual length next to the requested one. */
const MIN_ACTUAL = 4;
const ACTUAL = 0.8;

/**
 * The number that slightly exceeds a round one on the same line, on nearly all lines: `600 s … open 600.2` states
 * requested and actual length, so the span is over.
 */
export function actualOf({ slots, count }: Kind): Slot | null {
  const numbers = slots.filter(({ type }) => type === 'number');
  if (count < MIN_ACTUAL) return null;
  for (const asked of numbers) {
    const isAsked = asked.values.every((value) => Number.isInteger(2 * numberIn(value)) && numberIn(value) >= 5);
    for (const actual of isAsked ? numbers : []) {
      if (actual === asked || !actual.values.some((value) => /[.,]/.test(value))) continue;
      if (tookUnit(asked) === null && tookUnit(actual) === null) continue;
      const close = actual.perLine.filter((value, i) => {
        const more = numberIn(value) - numberIn(asked.perLine[i]);
        return more > -0.5 && more < 2 + 0.02 * numberIn(value);
      });
      if (close.length >= ACTUAL * actual.perLine.length) return actual;
    }
  }
  return null;
}

/**
 * The number of seconds below the requested length: the time until the exposure was aborted. In a row not marked as
 * aborted, the length column, if the requested length is in a remark.
 */
function shortOf({ slots }: Kind, event: EventName): Slot | null {
  const numbers = slots.filter(({ type }) => type === 'number');
  const isCut = event === 'exposure-abort';
  const [only, second] = numbers.filter((one) => tookUnit(one) !== null);
  // Nobody requests 338 s.
  if (isCut && only !== undefined && second === undefined && !only.values.every(isRound)) return only;
  const found = numbers.filter((one) =>
    numbers.some(
      (asked) =>
        asked !== one &&
        (isCut || (one.path !== null && asked.path === null && tookUnit(one) !== null)) &&
        (tookUnit(asked) !== null || tookUnit(one) !== null) &&
        (tookUnit(one) !== null || one.values.some((value) => /[.,]/.test(value))) &&
        asked.values.every((value) => isLength(numberIn(value))) &&
        one.perLine.every((value, i) => isShort(numberIn(value), numberIn(asked.perLine[i]))),
    ),
  );
  return found.length === 1 ? (found[0] ?? null) : null;
}

/** An aborted exposure was open for less, but for some time. */
function isShort(seconds: number, asked: number): boolean {
  return seconds > 0 && seconds < asked;
}

function isRound(value: string): boolean {
  return numberIn(value) % 5 === 0;
}

/** Whether an exposure may be requested with this length: a whole number that imagers use (common practice). */
function isLength(seconds: number): boolean {
  return Number.isInteger(seconds) && seconds >= 5 && seconds <= 3600;
}

/** Whether a number is in pixels. */
export function isPixels(slot: Slot): boolean {
  return slot.type === 'number' && (PIXELS.test(slot.after) || near(slot, PIXELS));
}

function numbersOf(slot: Slot): number[] {
  return slot.values.map(numberIn);
}

/** What neighbouring words, or the format of the values, determine with certainty. */
function surely(slot: Slot, event: EventName): SlotName | null {
  const isExposure = event.startsWith('exposure');
  switch (slot.type) {
    case 'file':
      return event === 'frame-saved' || isExposure ? 'file' : null;
    case 'filter':
      if (event.startsWith('filter')) return FROM_TO.test(slot.after) ? null : 'to';
      return isExposure ? 'filter' : null;
    case 'designation':
      return /^(?:exposure|slew|centre)-/.test(event) ? 'target' : null;
    case 'number':
      return surelyNumber(slot, event);
    case 'text':
      if (event.startsWith('filter') && near(slot, TO_FILTER, 1)) return 'to';
      if (/^(?:exposure|slew|centre)-/.test(event) && near(slot, TARGET, 1)) return 'target';
      // A wheel's own filter names, `H alpha 5nm`: identified by the name of the field.
      if (isExposure && slot.path !== null && near(slot, FILTER, 1)) return 'filter';
      return hasReason(event) && (saysWhy(slot) || mayBeWhy(slot)) ? 'why' : null;
    default:
      return null;
  }
}

function surelyNumber(slot: Slot, event: EventName): SlotName | null {
  // `pose_s`: the last word of a field's name is its unit; `took_s` is not a requested length.
  const isInSeconds = slot.path !== null && near(slot, SECONDS_AFTER, 1) && !near(slot, TOOK, 3);
  const isSeconds =
    !isOfArc(slot) && (SECONDS_AFTER.test(slot.after) || near(slot, SECONDS_BEFORE) || isInSeconds || isSpelt(slot));
  if (isTook(slot) && beginOf(event) !== undefined) return 'took';
  // `settled 20 s`: a finished span states its duration.
  if (isSeconds && beginOf(event) !== undefined && !event.startsWith('exposure')) return 'took';
  switch (event) {
    case 'exposure-begin':
    case 'exposure-end':
    case 'exposure-abort':
      return isSeconds ? 'seconds' : null;
    case 'dither-begin':
      return isPixels(slot) ? 'pixels' : null;
    default:
      return null;
  }
}

/** The likeliest meaning of a slot without informative neighbours. */
function likely(slot: Slot, event: EventName): SlotName | null {
  if (slot.type === 'text') return event === 'hold-begin' && slot.path === null ? 'why' : null;
  if (slot.type !== 'number' || isRunning(slot)) return null;
  const numbers = numbersOf(slot);
  const all = (test: (value: number) => boolean): boolean => numbers.every(test);
  switch (event) {
    case 'dither-begin':
      return all((value) => value > 0 && value < 100) && !isCount(numbers) ? 'pixels' : null;
    default:
      return null;
  }
}
