import { escaped } from '../escaped.js';
import { cutsShort } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';
import type { Kind } from './kind.js';
import { whenApart } from './optional-fields.js';
import { isFrameFile } from './values.js';

/** A remark about aborted rows: the column, and its text without numbers. */
export interface Remark {
  readonly path: string;
  readonly shape: string;
}

/** Rows with the same abort remark, or those without one. */
export interface CutShort {
  readonly lines: readonly FieldLine[];
  readonly remark: Remark | null;
}

const NUMBER = String.raw`[\d.,:]+`;
const NUMBERS = /\d+(?:[.,:]\d+)*/g;
/** Rows with a frame file in the remark column: they are exposures. */
const FILES = 0.5;

/** The abort remark of a row, `null` if there is none. */
export function remarkIn({ fields }: FieldLine, path: string): Remark | null {
  const text = fields.get(path) ?? '';
  return !isFrameFile(text) && cutsShort(text) ? { path, shape: text.replace(NUMBERS, '\0') } : null;
}

/** The constant part of a remark. */
export function remarkPattern({ shape }: Remark): string {
  return `^${shape.split('\0').map(escaped).join(NUMBER)}$`;
}

/** The kind with the text of its remark. */
export function withRemark(kind: Kind, remark: Remark | null): Kind {
  if (remark === null) return kind;
  return {
    ...kind,
    wording: `${kind.wording} ${remark.shape.replaceAll('\0', '#')}`,
    when: (groups) => whenApart(kind.when(groups), { [remark.path]: remarkPattern(remark) }),
  };
}

/**
 * Splits rows of exposures if a few have a remark about an abort instead of their file, and state when, there or in a
 * time of their own.
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
