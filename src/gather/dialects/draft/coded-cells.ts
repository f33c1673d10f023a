import type { FieldLine } from './kinds/field-line.js';
import { pathsOf } from './kinds/field-line.js';
import type { Kind, Slot, WhenText } from './kinds/kind.js';
import { codeEntries } from './code-entries.js';
import { isFilterName } from './kinds/values.js';
import { isTelling, namesWheel, saysMotion } from './lexicon/said.js';
import type { InWords } from './coded.js';
import type { Reading } from './reading/reading.js';
import { escaped } from './escaped.js';

/** Minimum number of rows, numbers and lengths of distinct codes, and fraction of rows whose code is explained. */
const MIN_ROWS = 20;
const CODES = { least: 3, leastOfDevice: 2, most: 90, longest: 8, letters: 4 } as const;
const EXPLAINED = 0.9;
/** Fraction of meanings that name an event. */
const TELLING = 0.5;
/** Limits for abbreviations of devices. */
const MOST_NAMES = 12;
const LONGEST_NAME_CODE = 3;
const PLAIN_CODE = /^(?:(?:0x)?[\p{L}\d][\p{L}\d_+<>!*.-]*|[-–—])$/iu;
/** An empty cell in a legend's table. */
const NOTHING = /^[-–—]*$/;

/** A column of codes that the log's legend explains. */
interface Coded {
  readonly path: string;
  readonly meanings: ReadonlyMap<string, string>;
  /** The contents of the columns after it, by code, if the legend has cells for them. */
  readonly names: ReadonlyMap<string, ReadonlyMap<string, string>>;
  /** The lines of the legend. */
  readonly lines: readonly string[];
}

/** The rows or records of a log with the meanings from its own legend in place of codes; `null` without such codes. */
export function cellsInWords(reading: Reading): InWords | null {
  const tables = reading.tables ?? [reading];
  const texts = reading.unstamped.map(({ text }) => text);
  const coded = tables.flatMap(({ fieldLines, timePaths }) => codedIn(fieldLines, timePaths, texts));
  if (coded.length === 0) return null;
  const decode = (lines: readonly FieldLine[]): FieldLine[] => lines.map((line) => decodedLine(line, coded));
  return {
    reading: {
      ...reading,
      fieldLines: decode(reading.fieldLines),
      ...(reading.tables === undefined
        ? {}
        : { tables: reading.tables.map((table) => ({ ...table, fieldLines: decode(table.fieldLines) })) }),
    },
    asWritten: (kind) => asWritten(kind, coded),
    legend: new Set(coded.flatMap(({ lines }) => lines)),
  };
}

function codedIn(lines: readonly FieldLine[], timePaths: readonly string[], texts: readonly string[]): Coded[] {
  if (lines.length < MIN_ROWS) return [];
  const columns = pathsOf(lines, timePaths);
  return columns.flatMap((path): Coded[] => {
    const values = lines.flatMap(({ fields }) => fields.get(path) || []);
    const codes = new Set(values);
    const legend = ofColumn(path, columns, texts, codes);
    const isOfCodes =
      values.length >= EXPLAINED * lines.length &&
      codes.size >= (legend.isOfDevice ? CODES.leastOfDevice : CODES.least) &&
      codes.size <= CODES.most &&
      [...codes].every(isShortCode) &&
      // Plain words and filters need no legend.
      [...codes].filter((code) => isTelling(code) || (isFilterName(code) && !legend.isOfDevice)).length <
        TELLING * codes.size;
    if (!isOfCodes) return [];
    const entries = codeEntries(legend.texts, codes);
    if (values.filter((value) => entries.has(value)).length < EXPLAINED * values.length) return [];
    const meanings = new Map([...entries].map(([code, { meaning }]) => [code, meaning] as const));
    const telling = [...codes].filter((code) => {
      const meaning = meanings.get(code) ?? '';
      return isTelling(meaning) || saysMotion(meaning);
    });
    // Names of filters are no names of devices.
    const mayBeNames = codes.size >= CODES.least && ![...codes].every(isFilterName);
    if (telling.length < TELLING * codes.size && !(mayBeNames && areNames(codes, meanings))) return [];
    const all = pathsOf(lines, []);
    const behind = all.slice(all.indexOf(path) + 1).filter((other) => !timePaths.includes(other));
    const names = new Map(
      [...entries].map(
        ([code, { cells }]) =>
          [
            code,
            new Map(behind.flatMap((other, i) => namedBy(other, cells[i]))) as ReadonlyMap<string, string>,
          ] as const,
      ),
    );
    return [{ path, meanings, names, lines: [...entries.values()].map(({ line }) => line) }];
  });
}

/** A list that says whose codes it explains: `mount: X = parked`, `camera (hc = heron, wc = wren): 0 idle`. */
const LABEL = /^[\s#;*-]*(\p{L}[^:]{0,60}?)\s*:\s/u;

/** The words in front of a list of codes. */
function labelOf(text: string): ReadonlySet<string> {
  return new Set(
    LABEL.exec(text)?.[1]
      ?.toLowerCase()
      .match(/[\p{L}\d_.]+/gu) ?? [],
  );
}

/** The legend for one column: lists that name it in front, or else all but those that name others. */
function ofColumn(
  path: string,
  columns: readonly string[],
  texts: readonly string[],
  codes: ReadonlySet<string>,
): { readonly texts: readonly string[]; readonly isOfDevice: boolean } {
  const own = texts.filter((text) => labelOf(text).has(path.toLowerCase()));
  if (own.length > 0) return { texts: own, isOfDevice: true };
  const isOther = (text: string): boolean => columns.some((column) => labelOf(text).has(column.toLowerCase()));
  const rest = texts.filter((text) => !isOther(text));
  // `cameras: B = exposes, R = reads out` above columns with the names of trains.
  const whole = rest.find((text) => labelOf(text).size > 0 && !namesWheel(path) && explainsAll(text, codes));
  return whole === undefined ? { texts: rest, isOfDevice: false } : { texts: [whole], isOfDevice: true };
}

/** Whether a list has a meaning for each of the codes. */
function explainsAll(text: string, codes: ReadonlySet<string>): boolean {
  const entries = codeEntries([text], codes);
  return [...codes].every((code) => entries.has(code));
}

/** Longer words need no explanation, and may be part of a sentence. */
export function isShortCode(code: string): boolean {
  return PLAIN_CODE.test(code) && code.length <= (/\d/.test(code) ? CODES.longest : CODES.letters);
}

/** Whether the codes are abbreviations of devices or trains: `H = heron, M = mount`. */
function areNames(codes: ReadonlySet<string>, meanings: ReadonlyMap<string, string>): boolean {
  return (
    codes.size <= MOST_NAMES &&
    [...codes].every((code) => code.length <= LONGEST_NAME_CODE && /^\p{L}[\p{L}\d-]*$/u.test(meanings.get(code) ?? ''))
  );
}

function namedBy(path: string, name = ''): [string, string][] {
  return NOTHING.test(name) ? [] : [[path, `${path} ${name}`]];
}

function decodedLine(line: FieldLine, coded: readonly Coded[]): FieldLine {
  let fields = [...line.fields];
  for (const { path, meanings, names } of coded) {
    const code = line.fields.get(path) ?? '';
    const named = names.get(code);
    fields = fields.map(([name, value]) =>
      name === path ? [name, meanings.get(code) ?? value] : [named?.get(name) ?? name, value],
    );
  }
  return { ...line, fields: new Map(fields) };
}

/** The kind with the log's own columns, and codes in its patterns. */
function asWritten(kind: Kind, coded: readonly Coded[]): Kind {
  const own = new Map(
    coded.flatMap(({ names }) => [...names.values()].flatMap((of) => [...of]).map(([a, b]) => [b, a])),
  );
  const slots = new Map(
    kind.slots.map((slot) => [
      slot,
      slot.path === null || !own.has(slot.path) ? slot : { ...slot, path: own.get(slot.path) ?? slot.path },
    ]),
  );
  const given = new Map([...slots].map(([was, is]) => [is, was] as const));
  const slotOf = (slot: Slot | null): Slot | null => (slot === null ? null : (slots.get(slot) ?? slot));
  const { exposure } = kind;
  return {
    ...kind,
    slots: [...slots.values()],
    ...(exposure === undefined
      ? {}
      : {
          exposure: {
            ...exposure,
            length: slotOf(exposure.length),
            asked: slotOf(exposure.asked),
            other: slotOf(exposure.other),
          },
        }),
    when: (groups) =>
      patternsInCodes(
        kind.when(new Map([...groups].map(([slot, name]) => [given.get(slot) ?? slot, name]))),
        coded,
        own,
      ),
  };
}

function patternsInCodes(when: WhenText, coded: readonly Coded[], own: ReadonlyMap<string, string>): WhenText {
  if (typeof when === 'string') return when;
  const changed = coded.find(({ path }) => when.changed === `^${escaped(path)}$`);
  return Object.fromEntries(
    Object.entries(when).map(([path, pattern]) => {
      const of = path === 'was' || path === 'now' ? changed : coded.find((one) => one.path === path);
      return [own.get(path) ?? path, of === undefined ? pattern : inCodes(pattern, of.meanings)];
    }),
  );
}

/** A pattern for the codes whose meanings match; the same pattern if it matches none, or any. */
function inCodes(pattern: string, meanings: ReadonlyMap<string, string>): string {
  const matching = new RegExp(pattern, 'u');
  const codes = [...meanings].flatMap(([code, meaning]) => (matching.test(meaning) ? [escaped(code)] : []));
  if (codes.length === 0 || codes.length === meanings.size) return pattern;
  return codes.length === 1 ? `^${codes[0] ?? ''}$` : `^(?:${codes.join('|')})$`;
}
