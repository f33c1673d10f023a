import { groupBy } from '../../../../model/index.js';
import { escaped } from '../escaped.js';
import { asLength } from '../kinds/clock-columns.js';
import { remarkIn, remarkPattern, type Remark } from '../kinds/cut-short.js';
import { pathsOf, recordText, type FieldForm, type FieldLine } from '../kinds/field-line.js';
import { fieldSlots } from '../kinds/field-slots.js';
import { commonestFirst, type Kind, type Slot } from '../kinds/kind.js';
import { isFrameFile } from '../kinds/values.js';
import { timeColumnOf } from '../kinds/time-columns.js';
import { namesBefore } from '../kinds/with-slots.js';
import { lengthMs } from '../lengths.js';
import { nearTime } from '../time/rough-clock.js';
import { sideOfTitle } from '../lexicon/sides.js';
import { exposureTable, nameOf, type ExposureTable } from './exposure-table.js';

const KEPT = 3000;
/** A length stated in a remark: `stopped after 48 s`. */
const STATED = /(?<![\p{L}\d.,])(\d+(?:[.,]\d+)?)(\s?)(s(?:ec\w*|ek\w*|eg\w*)?|秒|초)(?!\p{L})/u;
const NUMBER = String.raw`[\d.,]+`;
/** A time of day, and how long after it began an exposure may be cut short, ms. */
const CUT_AT = /(?<![\d.,:])(\d{1,2}[:.h]\d{2}(?:[:.m]\d{2})?)(?![\d:])/;
const CLOCK = String.raw`[\d.:hm]+`;
const LONGEST_MS = 7_200_000;

/** The kinds of a table in which each row is an exposure, one per train; `null` if it is not such a table. */
export function exposureKinds(lines: readonly FieldLine[], form: FieldForm): Kind[] | null {
  const { timePaths } = form;
  const table = exposureTable(lines, timePaths);
  if (table === null) return null;
  const paths = pathsOf(table.rows, timePaths);
  const ofTrains = groupBy(table.rows, (row) => nameOf(row, table.train));
  const kinds = [...ofTrains].flatMap(([train, own]) => {
    const remarks = new Map(own.map((row) => [row, cutRemark(row, paths, table)] as const));
    const sideOfRow = rowSides(own, timePaths);
    const groups = groupBy(own, (row) => JSON.stringify([remarks.get(row) ?? null, sideOfRow(row)]));
    return [...groups.values()].map((rows) => {
      const remark = rows[0] === undefined ? null : (remarks.get(rows[0]) ?? null);
      const side = (rows[0] === undefined ? null : sideOfRow(rows[0])) ?? table.side;
      return kindOf(rows, { train, remark, paths }, { ...table, side }, form);
    });
  });
  return kinds.sort(commonestFirst);
}

/** Which end each row states, if some rows fill only the begin column and others only the end column. */
function rowSides(
  rows: readonly FieldLine[],
  timePaths: readonly string[],
): (row: FieldLine) => 'begin' | 'end' | null {
  const filled = ({ fields }: FieldLine): string[] => timePaths.filter((path) => (fields.get(path) ?? '') !== '');
  if (timePaths.length < 2 || rows.every((row) => filled(row).length === timePaths.length)) return () => null;
  return (row) => sideOfTitle(filled(row).slice(0, 1));
}

/** The reason that a row without a frame gives. */
function cutRemark(line: FieldLine, paths: readonly string[], { file, train, length }: ExposureTable): Remark | null {
  if (file !== null && isFrameFile(line.fields.get(file) ?? '')) return null;
  const remarks = paths.filter((one) => one !== train?.path && one !== length?.path);
  return remarks.map((one) => remarkIn(line, one)).find((one) => one !== null) ?? null;
}

/** What rows of exposures have in common. */
interface OfRows {
  readonly train: string;
  readonly remark: Remark | null;
  readonly paths: readonly string[];
}

function kindOf(
  lines: readonly FieldLine[],
  { train, remark, paths }: OfRows,
  table: ExposureTable,
  { timePaths, decimalComma }: FieldForm,
): Kind {
  const kept = lines.slice(0, KEPT);
  const trainPath = table.train?.isPrefix === false ? table.train.path : null;
  const { slots, patterns } = fieldSlots(
    kept,
    paths.filter((path) => path !== trainPath && path !== remark?.path),
    decimalComma,
  );
  const own = slots.map((slot) =>
    slot.path !== null && slot.path === table.length?.path ? lengthOf(slot, table) : slot,
  );
  const stated = remark === null ? null : statedIn(kept, remark);
  const cutAt = remark === null ? null : cutTimeIn(kept, remark);
  const other = cutAt?.slot ?? own.find(({ path }) => path !== null && path === table.other) ?? null;
  const inColumn = own.find(({ path }) => path !== null && path === table.length?.path) ?? null;
  const inRemark = cutAt ?? stated;
  const length = stated?.slot ?? inColumn;
  const isMid = table.isMid && length !== null && length === inColumn;
  const apart: Record<string, string> = {
    ...(trainPath !== null ? { [trainPath]: `^${escaped(train)}$` } : {}),
    ...(table.train?.isPrefix === true ? { [table.train.path]: train === '' ? '^$' : `^${escaped(train)}` } : {}),
  };
  const filled = table.length?.path ?? table.other ?? '';
  if (Object.keys(apart).length === 0 && remark === null && filled !== '') apart[filled] = '.';
  return {
    count: lines.length,
    firstLine: lines[0]?.line ?? 0,
    examples: [...new Set(lines.slice(0, 50).map(({ fields }) => recordText(fields, timePaths)))].slice(0, 3),
    summary: recordText(lines[0]?.fields ?? new Map(), timePaths),
    wording: train,
    lead: train.length,
    hints: '',
    ...timeColumnOf(kept, timePaths),
    slots: inRemark === null ? own : [...own, inRemark.slot],
    lines: kept.map(({ line }) => line),
    atMs: kept.map(({ atMs }, i) => (isMid && length !== null ? atMs - lengthMs(length, i) / 2 : atMs)),
    exposure: {
      ...(isMid ? { isMid } : {}),
      side: table.side ?? 'begin',
      isSure: table.side !== null,
      train: train === '' ? null : train,
      isCut: remark !== null,
      length,
      // The actual length of an aborted exposure was not requested.
      asked: remark === null || stated !== null || cutAt !== null ? inColumn : null,
      other,
    },
    when: (groups) => ({
      ...apart,
      ...patterns(namesBefore(groups, own, slots)),
      ...(remark === null
        ? {}
        : {
            [remark.path]: inRemark === null ? remarkPattern(remark) : inRemark.pattern(groups.get(inRemark.slot)),
          }),
    }),
  };
}

/** Its length: a column of clock values as lengths with units; a column without a unit is named as what it is. */
function lengthOf(slot: Slot, { length }: ExposureTable): Slot {
  if (length?.isNamed === false) return { ...slot, before: ['seconds', ...slot.before] };
  return length?.isClock === true ? asLength(slot) : slot;
}

/** What remarks state, and the pattern that captures it. */
interface InRemark {
  readonly slot: Slot;
  readonly pattern: (name: string | undefined) => string;
}

/** When exposures were cut short, where the remark of each states a time of day soon after it began. */
function cutTimeIn(lines: readonly FieldLine[], { path }: Remark): InRemark | null {
  const found = lines.map(({ fields, atMs }) => {
    const match = CUT_AT.exec(fields.get(path) ?? '');
    const afterMs = match === null ? NaN : nearTime(match[0], atMs) - atMs;
    return afterMs >= 0 && afterMs <= LONGEST_MS ? match : null;
  });
  return caughtIn(lines, path, found, { type: 'clock', after: '', form: CLOCK });
}

/** The length that remarks state. */
function statedIn(lines: readonly FieldLine[], { path }: Remark): InRemark | null {
  const found = lines.map(({ fields }) => STATED.exec(fields.get(path) ?? ''));
  return caughtIn(lines, path, found, { type: 'number', after: 's', form: NUMBER });
}

function caughtIn(
  lines: readonly FieldLine[],
  path: string,
  found: readonly (RegExpExecArray | null)[],
  { type, after, form }: { readonly type: 'number' | 'clock'; readonly after: string; readonly form: string },
): InRemark | null {
  const [first] = found;
  const text = lines[0]?.fields.get(path) ?? '';
  if (first === undefined || first === null || found.some((one) => one === null)) return null;
  const perLine = found.map((one) => one?.[1]);
  const values = [...new Set(perLine.filter((value) => value !== undefined))];
  const slot: Slot = { path: null, before: [], after, type, values, perLine };
  const numbered = (part: string): string =>
    part
      .split(/\d+(?:[.,]\d+)?/)
      .map(escaped)
      .join(NUMBER);
  const front = numbered(text.slice(0, first.index));
  const behind = numbered(text.slice(first.index + (first[1]?.length ?? 0)));
  return { slot, pattern: (name) => `^${front}${name === undefined ? form : `(?<${name}>${form})`}${behind}$` };
}
