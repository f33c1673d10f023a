import type { WordList } from './lexicon/word-list.js';
import type { FieldLine } from './kinds/field-line.js';
import { ROOT } from '../records/sample-list.js';
import { jsonObject } from '../records/json-fields.js';
import { isAboutZero } from './guiding-columns.js';
import { numberOf } from './guiding-numbers.js';
import { scaleLine } from './guiding-scale.js';
import { milliIn } from './guiding-unit.js';
import { ARCSEC, DEC, IN_ARCSEC, PIXEL, PULSE, RA, SNR } from './guiding-words.js';
import { formulaName } from './formulas.js';
import { timesOf } from './list-times.js';
import { plainWords } from './lexicon/plain-words.js';
import type { GuidingDraft } from './report.js';
import { samplesIn, type ListOfSamples } from './sample-lists.js';
import type { HeadLine } from './time/base-lines.js';
import type { StampGuess } from './time/guess.js';

const LOOKED_AT = 3000;
const MIN_SAMPLES = 20;

/** Guiding samples that records hold as lists, and the patterns of their own times. */
export interface ListedGuiding {
  readonly guiding: GuidingDraft;
  readonly caught: readonly string[];
  readonly columns: readonly string[];
  /** Numbers of the lines with such records. */
  readonly lines: ReadonlySet<number>;
}

/**
 * Guiding samples inside records: `"guide": [[4.0, 0.12, -0.3], …]`, a list of objects, or one list per column. `null`
 * if there are none.
 *
 * @param stamp of the records, and the fields that hold it
 */
export function listedGuiding(
  records: readonly HeadLine[],
  stamp: StampGuess | null,
  timePaths: readonly string[],
): ListedGuiding | null {
  const found = new Map<string, { readonly lists: ListOfSamples[]; readonly lines: Set<number> }>();
  for (const { text, number } of records.slice(0, LOOKED_AT)) {
    if (!text.includes('[') && !/"(?:-?\d[\d.]*\s){4}/.test(text)) continue;
    const record = jsonObject(text);
    for (const list of samplesIn(record)) {
      const own = found.get(list.path) ?? { lists: [], lines: new Set() };
      found.set(list.path, own);
      own.lists.push(list);
      own.lines.add(number);
    }
  }
  const sizeOf = (lists: readonly ListOfSamples[]): number => lists.reduce((sum, { length }) => sum + length, 0);
  const ranked = [...found.values()].sort((a, b) => sizeOf(b.lists) - sizeOf(a.lists));
  for (const { lists, lines } of ranked) {
    const drafted = sizeOf(lists) >= MIN_SAMPLES ? listDraft(lists, records, stamp, timePaths) : null;
    if (drafted !== null) return { ...drafted, lines };
  }
  return null;
}

/** Records without their samples, which say nothing about the subject of a record. */
export function withoutSamples(
  records: readonly FieldLine[],
  { guiding: { list }, columns, lines }: ListedGuiding,
): readonly FieldLine[] {
  const front = list === undefined || list.in === ROOT ? '' : `${list.in.replace(/\[\]$/, '')}.`;
  const isOfSamples = (path: string): boolean =>
    front === '' ? columns.some((name) => path.startsWith(`${name}.`)) : path.startsWith(front);
  return records.map((record) =>
    lines.has(record.line)
      ? { ...record, fields: new Map([...record.fields].filter(([path]) => !isOfSamples(path))) }
      : record,
  );
}

function listDraft(
  lists: readonly ListOfSamples[],
  records: readonly HeadLine[],
  stamp: StampGuess | null,
  timePaths: readonly string[],
): Omit<ListedGuiding, 'lines'> | null {
  const [first] = lists;
  if (first === undefined || stamp === null) return null;
  const columns = first.columns.filter((name) => lists.every((list) => list.columns.includes(name)));
  const texts = (name: string): string[] => lists.flatMap((list) => list.texts(name));
  const milli = milliIn([first.path, ...columns, ...records.slice(0, 5).map(({ text }) => text.slice(0, 400))]);
  const errors = columns.filter((name) => isAboutZero(texts(name).map((text) => numberOf(text) / (milli ? 1000 : 1))));
  const pair = errorPair(errors);
  const when =
    pair === null
      ? null
      : timesOf(
          lists,
          columns.filter((name) => !pair.includes(name)),
          stamp,
          timePaths,
        );
  if (pair === null || when === null) return null;
  const scale = milli ? 'none' : scaleOf(first, pair, records);
  const times = milli ? ' / 1000' : scale === 'none' ? '' : ' * scale';
  const snr = columns.find((name) => SNR.test(plainWords(name)));
  const [ra, dec] = pair;
  return {
    guiding: {
      when: null,
      list: { in: first.path, ...when.list },
      ra: `${formulaName(ra)}${times}`,
      dec: `${formulaName(dec)}${times}`,
      ...(snr === undefined ? {} : { snr: formulaName(snr) }),
      ...(when.rhythm === undefined ? {} : { rhythm: when.rhythm }),
      scale,
    },
    caught: when.caught,
    columns,
  };
}

/** The error columns: by name, otherwise the only two. */
function errorPair(errors: readonly string[]): readonly [string, string] | null {
  const named = (words: WordList): string[] =>
    errors.filter((name) => words.test(plainWords(name)) && !PULSE.test(plainWords(name)));
  const [ra] = named(RA);
  const dec = named(DEC).find((name) => name !== ra);
  if (ra !== undefined && dec !== undefined) return [ra, dec];
  const [one, two, three] = errors.filter((name) => !PULSE.test(plainWords(name)));
  return one !== undefined && two !== undefined && three === undefined ? [one, two] : null;
}

function scaleOf(
  { path, scalars }: ListOfSamples,
  pair: readonly string[],
  records: readonly HeadLine[],
): GuidingDraft['scale'] {
  const words = [path, ...pair, ...scalars.values()].map(plainWords);
  const head = records.slice(0, 60).map(({ text }) => text.slice(0, 2000));
  const inArcsec = words.some((word) => ARCSEC.test(word));
  const inPixels = words.some((word) => PIXEL.test(word));
  if ((inArcsec && !inPixels) || (!inPixels && head.some((text) => IN_ARCSEC.test(text)))) return 'none';
  const stated = scaleLine(head);
  if (stated !== null) return { when: stated };
  return inPixels ? 'missing' : 'none';
}
