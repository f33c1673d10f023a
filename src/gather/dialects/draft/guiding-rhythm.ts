import { increment } from './time/counting.js';
import type { HeadLine } from './time/base-lines.js';
import { isAboutZero } from './guiding-columns.js';
import { spacedPattern, gapsBetween, numberOf, numberPattern } from './guiding-numbers.js';
import { scaleLine } from './guiding-scale.js';
import { milliIn } from './guiding-unit.js';
import type { BatchedGuiding } from './report.js';

const LOOKED_AT = 20_000;
const MIN_LINES = 5;
const MIN_SAMPLES = 20;
/** Minimum number of samples per line. */
const SEVERAL = 3;
const NUMBER = /(?<![\p{L}\d_.,])[-+\u2212]?\d+(?:[.,]\d+)?(?![\p{L}\d_:]|[.,]\d)/gu;
/** Numbers with decimal points only: a comma separates them. */
const POINTED = /(?<![\p{L}\d_.])[-+\u2212]?\d+(?:\.\d+)?(?![\p{L}\d_:]|\.\d)/gu;
const STEP =
  /(\d+(?:[.,]\d+)?)\s?(ms|s|sec|secs|seconds?|sek\w*|segundos?|secondes?|secondi|seconden|秒)(?![\p{L}\d])/iu;
const STEP_KEY =
  /(?:dt|step|cadence|cadencia|cadenza|interval\w*|every|period\w*|takt|alle|exp\w*)"?\s?[=:]?\s?(\d+(?:[.,]\d+)?)/iu;
/** Words that say which sample the line's time belongs to. */
const LAST =
  /\blast\b|letzte|derni[eè]r|[uú]ltim|laatste|ostatni|posledn|最后|最後|\bend of (?:the )?(?:batch|window|block)/iu;
const FIRST = /\bfirst\b|\berste|premi[eè]r|primer|\bprim[oa]\b|eerste|pierwsz|prvn|第一|最初/iu;
const ABOUT =
  /sampl|measur|mess|mesure|medid|misur|meting|pomiar|m[eě]ř|测量|測定|stamp|time|heure|hora|ora\b|zeit|tijd|czas|[čc]as\b|时间|時刻/iu;

interface Found {
  readonly line: HeadLine;
  readonly ra: readonly string[];
  readonly dec: readonly string[];
  readonly form: Form;
}

/** The text before, between and after the errors of a sample, or before each of two lists of them. */
type Form =
  | { readonly kind: 'pairs'; readonly open: string; readonly inner: string; readonly close: string }
  | { readonly kind: 'lists'; readonly beforeRa: string; readonly beforeDec: string; readonly between: string };

/**
 * Guiding samples, several per line without times of their own, as pairs or two lists, at a constant interval stated by
 * the line or the head. `null` if there are none.
 */
export function steadyGuiding(lines: readonly HeadLine[], decimalComma: boolean): BatchedGuiding | null {
  const forms = new Map<string, Found[]>();
  for (const line of lines.slice(0, LOOKED_AT)) {
    const found = pairsIn(line, decimalComma) ?? listsIn(line, decimalComma);
    if (found === null) continue;
    const key = JSON.stringify(found.form);
    const own = forms.get(key);
    if (own === undefined) forms.set(key, [found]);
    else own.push(found);
  }
  const sizeOf = (all: readonly Found[]): number => all.reduce((sum, { ra }) => sum + ra.length, 0);
  const [rows] = [...forms.values()].sort((a, b) => sizeOf(b) - sizeOf(a));
  if (rows === undefined || rows.length < MIN_LINES || sizeOf(rows) < MIN_SAMPLES) return null;
  const numbers = new Set(rows.map(({ line }) => line.number));
  const others = lines.filter(({ number }) => !numbers.has(number)).slice(0, LOOKED_AT);
  const every = rhythmOf(rows, others);
  if (every === null) return null;
  const milli = milliIn([
    ...rows.slice(0, 3).map(({ line }) => line.text),
    ...others.slice(0, 60).map(({ text }) => text),
  ]);
  const isError = (values: readonly string[]): boolean =>
    isAboutZero(values.map((text) => numberOf(text) / (milli ? 1000 : 1)));
  if (!isError(rows.flatMap(({ ra }) => ra)) || !isError(rows.flatMap(({ dec }) => dec))) return null;
  const scale = milli ? null : scaleLine(lines.map(({ text }) => text));
  const times = milli ? ' / 1000' : scale === null ? '' : ' * scale';
  const statement = others.slice(0, 60).find(({ text }) => ABOUT.test(text) && (LAST.test(text) || FIRST.test(text)));
  const timed = statement !== undefined && FIRST.test(statement.text) && !LAST.test(statement.text) ? 'first' : 'last';
  const [{ form } = { form: null }] = rows;
  if (form === null) return null;
  return {
    guiding: {
      when: patternOf(form, decimalComma),
      each: form.kind === 'pairs' ? true : 'lists',
      rhythm: { every, timed, isStated: statement !== undefined },
      ra: `ra${times}`,
      dec: `dec${times}`,
      scale: scale === null ? 'none' : { when: scale },
    },
    caught: null,
    lines: numbers,
    section: null,
  };
}

function matchesIn(text: string, decimalComma: boolean): RegExpExecArray[] {
  return [...text.slice(0, 20_000).matchAll(decimalComma ? NUMBER : POINTED)];
}

/** Numbers in pairs, `(0.61;0.39) (-0.69;-0.78)`. */
function pairsIn(line: HeadLine, decimalComma: boolean): Found | null {
  const found = matchesIn(line.text, decimalComma);
  const gaps = gapsBetween(line.text, found);
  for (let first = 0; first + 2 * SEVERAL <= found.length; first++) {
    const inner = gaps[first];
    const between = gaps[first + 1];
    if (inner === undefined || between === undefined || inner === between) continue;
    let count = 1;
    while (gaps[first + 2 * count - 1] === between && gaps[first + 2 * count] === inner) count++;
    if (count < SEVERAL) continue;
    const own = found.slice(first, first + 2 * count).map(([text]) => text);
    const open = /[^\s\p{L}\d,;]*$/u.exec(between)?.[0] ?? '';
    const close = /^[^\s\p{L}\d,;]*/u.exec(between)?.[0] ?? '';
    return {
      line,
      ra: own.filter((_, i) => i % 2 === 0),
      dec: own.filter((_, i) => i % 2 === 1),
      form: { kind: 'pairs', open, inner, close },
    };
  }
  return null;
}

/** Two lists of equal length, `ra=[0.1, -0.2, 0.3] dec=[0.2, 0.1, -0.1]`. */
function listsIn(line: HeadLine, decimalComma: boolean): Found | null {
  const found = matchesIn(line.text, decimalComma);
  const gaps = gapsBetween(line.text, found);
  const runs: { readonly first: number; readonly count: number; readonly between: string }[] = [];
  for (let first = 0; first < found.length; ) {
    const between = gaps[first] ?? '';
    let count = 1;
    while (gaps[first + count - 1] === between && between !== '') count++;
    if (count >= SEVERAL && !/\p{L}/u.test(between)) runs.push({ first, count, between });
    // The last of a few numbers may be the first of a list: `22:21:56 - AR -0.13 -0.33 …`.
    first += count >= SEVERAL ? count : 1;
  }
  // A date is also a run of three numbers.
  const at = runs.findIndex(
    ({ count, between }, i) => runs[i + 1]?.count === count && runs[i + 1]?.between === between,
  );
  const [ra, dec] = at < 0 ? [] : runs.slice(at, at + 2);
  if (ra === undefined || dec === undefined) return null;
  const textsOf = ({ first, count }: typeof ra): string[] => found.slice(first, first + count).map(([text]) => text);
  const before = (at: number): string => /\p{L}[^\d]{0,12}$/u.exec(line.text.slice(0, found[at]?.index))?.[0] ?? '';
  const [beforeRa, beforeDec] = [before(ra.first), before(dec.first)];
  if (beforeRa === '' || beforeDec === '') return null;
  return {
    line,
    ra: textsOf(ra),
    dec: textsOf(dec),
    form: { kind: 'lists', beforeRa, beforeDec, between: ra.between },
  };
}

/** Seconds between samples: as stated on every line before its samples, otherwise on another line. */
function rhythmOf(rows: readonly Found[], others: readonly HeadLine[]): number | null {
  const stated = new Map<string, number>();
  for (const { line } of rows) {
    const seconds = stepIn(line.text);
    if (seconds !== null) increment(stated, String(seconds));
  }
  const [own] = [...stated].sort((a, b) => b[1] - a[1]);
  if (own !== undefined && own[1] >= 0.8 * rows.length) return Number(own[0]);
  for (const { text } of others.slice(0, 60)) {
    const seconds = /sampl|guid|leit|nachf|korrekt|mesure|medid|misur|meting|pomiar|导星|導星/iu.test(text)
      ? stepIn(text)
      : null;
    if (seconds !== null) return seconds;
  }
  return null;
}

function stepIn(text: string): number | null {
  const [, digits, unit] = STEP.exec(text) ?? STEP_KEY.exec(text) ?? [];
  if (digits === undefined) return null;
  const seconds = numberOf(digits) * (unit?.toLowerCase() === 'ms' ? 0.001 : 1);
  return seconds > 0.05 && seconds <= 60 ? seconds : null;
}

function patternOf(form: Form, decimalComma: boolean): string {
  const number = numberPattern(decimalComma);
  if (form.kind === 'pairs')
    return `${spacedPattern(form.open)}(?<ra>${number})${spacedPattern(form.inner)}(?<dec>${number})${spacedPattern(form.close)}`;
  const list = `${number}(?:${spacedPattern(form.between)}${number})+`;
  return `${spacedPattern(form.beforeRa)}(?<ra>${list})[^\\d]*${spacedPattern(form.beforeDec)}(?<dec>${list})`;
}
