import type { WordList } from './lexicon/word-list.js';
import type { Kind, Slot, WhenText } from './kinds/kind.js';
import { numberIn } from './kinds/values.js';
import { plainWords } from './lexicon/plain-words.js';
import { saysMotion } from './lexicon/said.js';
import { wordEvidence } from './lexicon/word-evidence.js';
import { isAboutZero } from './guiding-columns.js';
import { scaleLine } from './guiding-scale.js';
import { namedBehind, namesAxis } from './guiding-axes.js';
import { milliIn } from './guiding-unit.js';
import { ARCSEC, DEC, ERROR, IN_ARCSEC, PIXEL, PULSE, RA, SNR } from './guiding-words.js';
import type { GuidingDraft } from './report.js';

interface Column {
  readonly slot: Slot;
  readonly numbers: readonly number[];
}

/** A kind of line, or a table, whose two signed columns about zero are guiding errors; `null` when there is none. */
export function guessGuiding(
  kinds: readonly Kind[],
  head: readonly string[],
  lines: readonly string[],
  decimalComma: boolean,
): { readonly kind: Kind; readonly guiding: GuidingDraft } | null {
  const found = kinds
    .flatMap((kind) => {
      const pair = errorPair(kind, head);
      return pair === null ? [] : [{ kind, pair }];
    })
    .sort((a, b) => b.kind.count - a.kind.count)[0];
  if (found === undefined) return null;
  const { kind, pair } = found;
  const [ra, dec] = pair;
  const snr = kind.slots.find((slot) => slot.type === 'number' && named(slot, SNR));
  const isInMilli = isMilli(ra, head);
  const scale = isInMilli ? 'none' : scaleOf(pair, head, lines);
  const groups = new Map<Slot, string>([
    [ra, 'ra'],
    [dec, 'dec'],
    ...(snr === undefined ? [] : [[snr, 'snr'] as const]),
  ]);
  const name = (slot: Slot, group: string): string => (slot.path === null ? group : formulaName(slot.path));
  const times = isInMilli ? ' / 1000' : scale === 'none' ? '' : ' * scale';
  return {
    kind,
    guiding: {
      when: withNumbers(inMoreKinds(kind, pair, kinds) ? {} : kind.when(groups), pair, decimalComma),
      ra: `${name(ra, 'ra')}${times}`,
      dec: `${name(dec, 'dec')}${times}`,
      ...(snr === undefined ? {} : { snr: name(snr, 'snr') }),
      scale,
    },
  };
}

/** Ratio of samples in other rows to this kind's from which on the samples do not identify the kind. */
const ELSEWHERE = 0.2;

/** Whether the error columns are filled in rows of other kinds as well: in a table with the state of everything. */
function inMoreKinds(kind: Kind, [ra, dec]: readonly [Slot, Slot], kinds: readonly Kind[]): boolean {
  if (ra.path === null || dec.path === null) return false;
  const filled = (one: Kind, path: string | null): number =>
    one.slots.find((slot) => slot.path === path)?.perLine.filter((text) => !Number.isNaN(numberIn(text))).length ?? 0;
  const others = kinds.filter((one) => one !== kind);
  const sum = others.reduce((all, one) => all + Math.min(filled(one, ra.path), filled(one, dec.path)), 0);
  return sum > ELSEWHERE * kind.count;
}

/** In a table, sample rows are those with numbers in both columns. */
function withNumbers(when: WhenText, pair: readonly Slot[], decimalComma: boolean): WhenText {
  if (typeof when === 'string') return when;
  const number = `^[-+\u2212]?[0-9][0-9${decimalComma ? ',' : '.'}]*$`;
  return { ...when, ...Object.fromEntries(pair.flatMap(({ path }) => (path === null ? [] : [[path, number]]))) };
}

/** The errors are in thousandths of an arcsecond: stated in the column or the head. */
function isMilli(slot: Slot, head: readonly string[]): boolean {
  return milliIn([slot.path ?? '', slot.after, ...slot.before.slice(0, 3), ...head]);
}

function errorPair(kind: Kind, head: readonly string[]): readonly [Slot, Slot] | null {
  if (kind.count < 20 || isShift(kind)) return null;
  const columns = kind.slots
    .filter(({ type }) => type === 'number')
    .map((slot): Column => {
      const factor = isMilli(slot, head) ? 0.001 : 1;
      return {
        slot,
        numbers: slot.perLine.map((text) => numberIn(text) * factor).filter((value) => !Number.isNaN(value)),
      };
    })
    .filter(({ numbers }) => numbers.length > 0.8 * kind.lines.length && isAboutZero(numbers));
  const [one, other, more] = columns.filter(({ slot }) => !named(slot, PULSE));
  const behind = one && other && more === undefined ? namedBehind(kind, [one.slot, other.slot]) : null;
  if (behind !== null) return behind;
  const ranked = (words: WordList): Column[] =>
    columns.filter(({ slot }) => named(slot, words)).sort((a, b) => quality(b.slot) - quality(a.slot));
  const ra = ranked(RA).find(({ slot }) => !named(slot, PULSE)) ?? ranked(RA)[0];
  const dec =
    ranked(DEC).find(({ slot }) => slot !== ra?.slot && !named(slot, PULSE)) ??
    ranked(DEC).find(({ slot }) => slot !== ra?.slot);
  if (ra !== undefined && dec !== undefined) return [ra.slot, dec.slot];
  if (one === undefined || other === undefined) return null;
  // `raw 0.1 -0.2 smoothed 0.0 -0.1`: of several pairs the one named as the error.
  const isFirstPair = more !== undefined && named(one.slot, ERROR) && other.slot.before.length === 0;
  return more === undefined || isFirstPair ? [one.slot, other.slot] : null;
}

const SAYS_SHIFT = 2.2;
const HINTS_SHIFT = 1;

/** Whether two numbers about zero are the size of a dither, not the position error of the star. */
function isShift({ wording, slots }: Kind): boolean {
  // No dither has the signal of a star.
  if (slots.some((slot) => named(slot, SNR))) return false;
  const evidence = wordEvidence(wording);
  const shift = Math.max(evidence.get('dither-begin') ?? 0, evidence.get('dither-end') ?? 0);
  if (shift < HINTS_SHIFT || shift < Math.max(...evidence.values())) return false;
  return (shift >= SAYS_SHIFT && saysMotion(wording)) || !slots.some((slot) => named(slot, ERROR));
}

function quality(slot: Slot): number {
  return (named(slot, ERROR) ? 2 : 0) - (named(slot, PULSE) ? 3 : 0) + (namesAxis(slot) ? 1 : 0);
}

function named(slot: Slot, words: WordList): boolean {
  return slot.before.slice(0, 3).some((word) => words.test(word)) || words.test(plainWords(slot.path ?? ''));
}

/** Whether the errors are in pixels, and the line that states the scale in arcseconds. */
function scaleOf(pair: readonly Slot[], head: readonly string[], lines: readonly string[]): GuidingDraft['scale'] {
  const unit = (words: WordList): boolean =>
    pair.some(
      (slot) =>
        words.test(slot.after) ||
        words.test(plainWords(slot.path ?? '')) ||
        slot.before.some((word) => words.test(word)),
    );
  if (unit(ARCSEC) && !unit(PIXEL)) return 'none';
  if (!unit(PIXEL) && head.some((line) => IN_ARCSEC.test(line))) return 'none';
  const stated = scaleLine(lines);
  if (stated !== null) return { when: stated };
  return unit(PIXEL) ? 'missing' : 'none';
}

function formulaName(path: string): string {
  return /^[A-Za-z_]\w*$/.test(path) ? path : `{${path}}`;
}
