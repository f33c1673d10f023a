import { escaped } from '../escaped.js';
import { cutsShort } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';
import type { Kind } from './kind.js';
import { whenApart } from './optional-fields.js';
import { isFrameFile } from './values.js';

/** What a remark says of rows that were cut short: the column, and its text but for numbers. */
export interface Remark {
  readonly path: string;
  readonly shape: string;
}

/** Rows with the same remark that says so, or those without one. */
export interface CutShort {
  readonly lines: readonly FieldLine[];
  readonly remark: Remark | null;
}

const NUMBER = String.raw`[\d.,:]+`;
const NUMBERS = /\d+(?:[.,:]\d+)*/g;
/** Rows with a frame's file in the column of the remarks: they tell of exposures. */
const FILES = 0.5;

/** What the column says of a row that was cut short, `null` where it says nothing of that. */
export function remarkIn({ fields }: FieldLine, path: string): Remark | null {
  const text = fields.get(path) ?? '';
  return !isFrameFile(text) && cutsShort(text) ? { path, shape: text.replace(NUMBERS, '\0') } : null;
}

/** What a remark says in all of its rows. */
export function remarkPattern({ shape }: Remark): string {
  return `^${shape.split('\0').map(escaped).join(NUMBER)}$`;
}

/** The kind with what its remark says. */
export function withRemark(kind: Kind, remark: Remark | null): Kind {
  if (remark === null) return kind;
  return {
    ...kind,
    wording: `${kind.wording} ${remark.shape.replaceAll('\0', '#')}`,
    when: (groups) => whenApart(kind.when(groups), { [remark.path]: remarkPattern(remark) }),
  };
}

/**
 * Takes rows of exposures apart where a few have, instead of their file, a remark that they were cut short, and say
 * there or by a time of their own when that was.
 */
export function byCutShort(
  lines: readonly FieldLine[],
  telling: readonly string[],
  timePaths: readonly string[],
): CutShort[] {
  const whole = [{ lines, remark: null }];
  const paths = [...(lines[0]?.fields.keys() ?? [])].filter(
    (path) => !telling.includes(path) && !timePaths.includes(path),
  );
  const path = paths.find(
    (one) => lines.filter(({ fields }) => isFrameFile(fields.get(one) ?? '')).length >= FILES * lines.length,
  );
  if (path === undefined) return whole;
  const cut = new Map<string, { remark: Remark; lines: FieldLine[] }>();
  const rest = lines.filter((line) => {
    const remark = remarkIn(line, path);
    const isTimed = (line.timesMs?.size ?? 0) > 0;
    if (remark === null || !(isTimed || remark.shape.includes('\0'))) return true;
    const own = cut.get(remark.shape) ?? { remark, lines: [] };
    cut.set(remark.shape, own);
    own.lines.push(line);
    return false;
  });
  return cut.size === 0 || rest.length === 0 ? whole : [{ lines: rest, remark: null }, ...cut.values()];
}
