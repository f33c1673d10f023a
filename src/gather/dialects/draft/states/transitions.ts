import { groupBy } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';

/** A kind whose lines say which state a device leaves and which it enters: `guider  settling -> locked`. */
export interface Transition {
  readonly kind: Kind;
  /** Owner of the states; '' for the program as a whole. */
  readonly device: string;
  /** Devices with similar names, under one name with a placeholder for the difference. */
  readonly family: string;
  readonly left: string;
  readonly entered: string;
  /** The text after the name of the state that is entered. */
  readonly rest: string;
}

/** Placeholder for a device's state before its first. */
export const NOTHING = '·';
/** Names of the device and of the state left, the mark between, and the state entered with what follows. */
const ARROW = /^(.*?\S)(?:\s*(?:→|⇒|->|=>|»)\s*|\s?>\s?)(\S.*)$/su;
/** Separates the name of a device from that of its state. */
const DEVICE = /^(.*(?:\s{2,}|[:|\]]\s+|[:|\]](?=\S)))?(\S.*)$/su;
/** The text after the name of a state. */
const BEHIND = /\s{2,}|\s*[([{,;:|]|\s+(?:\d|[#=])|\s+\p{L}+=/su;
/** Numbered states: words after them describe them. */
const CODE = /^\p{L}{0,3}[-_]?\d+$/u;
const LAST_WORD = /^(.*\S)\s+(\S+)$/su;
/** `en cours` and `en pause` are no states of something called `en`. */
const PREPOSITION = /^(?:en|in|im|em|op|w|v|na|au|à|på|i|is)$/iu;
const MAX_NAME = 30;
/**
 * Minimum number of lines of a device for its states to be examined, and fraction that continue from the previous one.
 */
const MIN_LINES = 4;
const GOES_ON = 0.8;
/** Minimum fraction of timed lines that are such state changes. */
const MIN_ALL = 10;
const SHARE = 0.3;

/**
 * The kinds of a log in which devices, or the program, go from state to state: each enters what the next line of the
 * same device leaves. Empty if it is not such a log.
 */
export function transitionsIn(kinds: readonly Kind[]): readonly Transition[] {
  const halves = kinds.flatMap((kind) => {
    const [, front, behind] = ARROW.exec(kind.wording) ?? [];
    if (front === undefined || behind === undefined) return [];
    const lead = kind.lead > 0 && kind.lead < front.length ? kind.lead : 0;
    const [, before = '', left = ''] = DEVICE.exec(front.slice(lead)) ?? [];
    // The value attached to a state only matters after the state that is entered.
    const name = (left.trim().startsWith('#') ? left : (left.split(BEHIND)[0] ?? '')).trim();
    return name === '' || name.length > MAX_NAME || /#./su.test(name)
      ? []
      : [{ kind, device: `${front.slice(0, lead)}${before}`.trim(), left: name, behind }];
  });
  // `waits dither` of a camera and `waits clouds` of a roof are not states of one waiting device.
  const lastsOf = new Map(
    [...groupBy(halves, ({ device }) => device)].map(([device, own]) => [
      device,
      lastWords(own.map(({ left }) => left)),
    ]),
  );
  const asStateOf = (device: string, name: string): { of: string; left: string } =>
    asState(name, lastsOf.get(device) ?? new Map<string, ReadonlySet<string>>());
  const states = new Set(halves.map(({ device, left }) => asStateOf(device, left).left));
  const isRenewed = renewals(kinds);
  const found = halves.flatMap(({ kind, device: before, left: name, behind }): Omit<Transition, 'family'>[] => {
    const { of, left } = asStateOf(before, name);
    const device = `${before} ${of}`.trim();
    const entered = enteredIn(behind, states);
    const rest = behind.slice(entered.length);
    return entered === '' || entered.length > MAX_NAME || (entered === left && !isRenewed(kind)) || CODE.test(left)
      ? []
      : [{ kind, device, left, entered, rest }];
  });
  const families = familiesOf(new Set(found.map(({ device }) => device)));
  const all = found.map((one): Transition => ({ ...one, family: families.get(one.device) ?? one.device }));
  const chained = [...groupBy(all, ({ family }) => family).values()].filter(goesOn).flat();
  const lines = chained.reduce((sum, { kind }) => sum + kind.count, 0);
  const timed = kinds.reduce((sum, { atMs, count }) => sum + (atMs.some((ms) => !Number.isNaN(ms)) ? count : 0), 0);
  return lines >= MIN_ALL && lines >= SHARE * timed ? chained : [];
}

/**
 * Minimum fraction of a kind's changes in which a number increases; minimum spacing relative to the closest lines of a
 * log.
 */
const GOES_UP = 0.8;
const MIN_RENEWED = 4;
const APART = 1.9;

/**
 * Whether a kind's lines re-enter the current state of the device: `exposes 002 Ha → exposes 003 Ha` is the next
 * exposure. A number that increases on every line of the log is only progress.
 */
function renewals(kinds: readonly Kind[]): (kind: Kind) => boolean {
  const times = [...new Set(kinds.flatMap(({ atMs }) => atMs.filter((ms) => !Number.isNaN(ms))))].sort((a, b) => a - b);
  const leastMs = Math.min(...times.slice(1).map((ms, i) => ms - (times[i] ?? NaN)));
  return ({ atMs, slots, count }) => {
    const steps = atMs.slice(1).map((ms, i) => ms - (atMs[i] ?? NaN));
    const apart = steps.filter((ms) => ms >= APART * leastMs).length;
    return (
      count >= MIN_RENEWED &&
      apart >= GOES_UP * steps.length &&
      slots.some(({ path, type, perLine }) => {
        const numbers = type === 'number' && path === null ? perLine.map(numberIn) : [];
        const up = numbers.filter((one, i) => i > 0 && one > (numbers[i - 1] ?? NaN)).length;
        return numbers.length > 1 && up >= GOES_UP * (numbers.length - 1);
      })
    );
  };
}

/** The last words of multi-word names, by the words before. */
function lastWords(names: readonly string[]): ReadonlyMap<string, ReadonlySet<string>> {
  const lasts = new Map<string, Set<string>>();
  for (const name of names) {
    const [, of, last] = LAST_WORD.exec(name) ?? [];
    if (of !== undefined && !PREPOSITION.test(of) && last !== undefined)
      lasts.set(of, (lasts.get(of) ?? new Set()).add(last));
  }
  return lasts;
}

/** `centre IDLE` is the state of a device with others such as `centre RUN`. */
function asState(name: string, lasts: ReadonlyMap<string, ReadonlySet<string>>): { of: string; left: string } {
  const [, of = '', last = ''] = LAST_WORD.exec(name) ?? [];
  return (lasts.get(of)?.size ?? 0) > 1 ? { of, left: last } : { of: '', left: name };
}

/** `camera.#` and `camera.wren`, which some kinds of its lines name, form one family. */
function familiesOf(devices: ReadonlySet<string>): ReadonlyMap<string, string> {
  const open = [...devices].filter((device) => device.includes('#'));
  return new Map(
    [...devices].map((device) => {
      const words = device.split(/(?<=\W)|(?=\W)/);
      return [
        device,
        open.find((one) => one !== device && fits(one.split(/(?<=\W)|(?=\W)/), words)) ?? device,
      ] as const;
    }),
  );
}

function fits(pattern: readonly string[], words: readonly string[]): boolean {
  return pattern.length === words.length && pattern.every((word, i) => word === '#' || word === words[i]);
}

/** The name of the state that is entered: the longest one that some line leaves, else the text before the rest. */
function enteredIn(behind: string, known: ReadonlySet<string>): string {
  const [longest] = [...known]
    .filter((name) => behind.startsWith(name) && !/^[\p{L}\p{N}_-]/u.test(behind.slice(name.length)))
    .sort((a, b) => b.length - a.length);
  return longest ?? behind.split(BEHIND)[0]?.trim() ?? '';
}

/** Whether each line of a device leaves what the previous one entered; a value may identify one of two devices. */
function goesOn(own: readonly Transition[]): boolean {
  const texts = new Set(
    own.flatMap(({ kind }) => kind.slots.flatMap(({ path, type }) => (path !== null && type === 'text' ? [path] : []))),
  );
  return [undefined, ...texts].some((path) => followsItself(own, path));
}

/** @param path the field that distinguishes devices with the same name */
function followsItself(own: readonly Transition[], path: string | undefined): boolean {
  const devices = stepsOf(own, path);
  const following = devices.map((one) => one.filter(({ left }, i) => i > 0 && left === one[i - 1]?.entered).length);
  const lines = devices.reduce((sum, { length }) => sum + length, 0);
  const all = lines - devices.length;
  const goingOn = following.reduce((sum, count) => sum + count, 0);
  return all > 0 && (lines < MIN_LINES ? goingOn === all : goingOn >= GOES_ON * all);
}

/** One line of a device, with what it leaves and enters. */
interface Step {
  readonly line: number;
  readonly atMs: number;
  readonly left: string;
  readonly entered: string;
}

/**
 * The lines of devices, each in order.
 *
 * @param path the field that distinguishes devices with the same name
 */
export function stepsOf(own: readonly Transition[], path?: string): readonly (readonly Step[])[] {
  const steps = own
    .flatMap(({ kind, device, left, entered }) =>
      kind.lines.map((line, i) => ({
        line,
        atMs: kind.atMs[i] ?? NaN,
        left,
        entered,
        of: nameOn(kind, device, i, path),
      })),
    )
    .sort((a, b) => a.line - b.line);
  return [...groupBy(steps, ({ of }) => of).values()];
}

/** The device's name on a line of a kind, with the values in it. */
function nameOn({ slots }: Kind, device: string, i: number, path: string | undefined): string {
  if (path !== undefined) return slots.find((slot) => slot.path === path)?.perLine[i] ?? '';
  let place = 0;
  return device.replace(/#/g, () => slots[place++]?.perLine[i] ?? '#');
}
