import { codeEntries } from './code-entries.js';
import { isSubject, isTelling } from './lexicon/said.js';

/** The meaning of a code, and the names of the values behind it, if its legend lists them. */
export interface CodeMeaning {
  readonly meaning: string;
  readonly names: readonly string[];
}

/** The meanings of codes and the lines that state them. */
export interface CodeMeanings {
  readonly meanings: ReadonlyMap<string, CodeMeaning>;
  readonly lines: readonly string[];
}

/** Fraction of the coded messages that are explained. */
const EXPLAINED = 0.9;
/** Limits for the numbers of devices and of acts. */
const MOST_DEVICES = 6;
const LEAST_ACTS = 4;
/** The names of values behind a meaning: `shutter opens: filter, seconds, target`. */
const VALUES = /^(?<said>[^:]*\p{L}{2}[^:]*):\s+(?<names>\p{L}[^:]*)$/u;

/**
 * The meanings of codes by the legend of a log: of whole codes, or of codes in two parts that it explains one by one,
 * as `110` for shutter 10 of train 1. `null` if it leaves too many unexplained.
 *
 * @param counts the codes, and how many messages have each
 */
export function meaningsOf(texts: readonly string[], counts: ReadonlyMap<string, number>): CodeMeanings | null {
  const entries = codeEntries(texts, new Set(counts.keys()));
  const share = (codes: Iterable<string>): number =>
    [...codes].reduce((sum, code) => sum + (counts.get(code) ?? 0), 0) /
    [...counts.values()].reduce((sum, count) => sum + count, 0);
  if (share(entries.keys()) >= EXPLAINED)
    return {
      meanings: new Map([...entries].map(([code, { meaning }]) => [code, withNames(meaning)])),
      lines: [...entries.values()].map(({ line }) => line),
    };
  const [length, ...others] = new Set([...counts.keys()].map((code) => code.length));
  if (length === undefined || others.length > 0) return null;
  const found = Array.from({ length: length - 1 }, (_, i) => inParts(texts, [...counts.keys()], i + 1));
  return found.find((one) => one !== null && share(one.meanings.keys()) >= EXPLAINED) ?? null;
}

/** The meanings of codes of a device and an act, in either order, cut at a place. */
function inParts(texts: readonly string[], codes: readonly string[], at: number): CodeMeanings | null {
  const [fronts, backs] = [
    new Set(codes.map((code) => code.slice(0, at))),
    new Set(codes.map((code) => code.slice(at))),
  ];
  const isFront = fronts.size <= backs.size;
  const [devices, acts] = isFront ? [fronts, backs] : [backs, fronts];
  if (devices.size > MOST_DEVICES || devices.size < 2 || acts.size < LEAST_ACTS) return null;
  const [deviceOf, actOf] = [codeEntries(texts, devices), codeEntries(texts, acts)];
  if ([...devices].some((device) => !deviceOf.has(device))) return null;
  const meanings = codes.flatMap((code): [string, CodeMeaning][] => {
    const [front, back] = [code.slice(0, at), code.slice(at)];
    const device = deviceOf.get(isFront ? front : back);
    const act = actOf.get(isFront ? back : front);
    if (device === undefined || act === undefined) return [];
    const { meaning, names } = withNames(act.meaning);
    const name = firstWord(device.meaning);
    // The act names what it is of: only a train's name says more.
    return [[code, { meaning: isTelling(meaning) && isSubject(name) ? meaning : `${name} ${meaning}`, names }]];
  });
  return {
    meanings: new Map(meanings),
    lines: [...deviceOf.values(), ...actOf.values()].map(({ line }) => line),
  };
}

function withNames(meaning: string): CodeMeaning {
  const { said, names } = VALUES.exec(meaning)?.groups ?? {};
  return said === undefined || names === undefined
    ? { meaning, names: [] }
    : { meaning: said, names: names.split(/[,;]\s+/).map((name) => name.trim()) };
}

/** `mount or general`: what it is called first. */
function firstWord(text: string): string {
  return /[\p{L}\d_-]+/u.exec(text)?.[0] ?? text;
}
