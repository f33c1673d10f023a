import { knownEncoding } from '../lines/encoding.js';
import { CompileContext } from './compile-context.js';
import { compileCsv } from './compile-csv.js';
import { compileGuiding, compileLine } from './compile-lines.js';
import {
  compileBaseInName,
  compileFixedBase,
  compileConstants,
  compileJobs,
  compileRecords,
  compileSections,
  compileStateLines,
  compileStates,
  compileTrain,
} from './compile-sources.js';
import { compileTime } from './compile-time.js';
import type { CompiledDialect } from './compiled.js';
import { inOtherOrder } from './other-order.js';
import type { Path } from './problems.js';
import type { DialectFile } from './schema.js';
import type { Problem } from './schema-messages.js';

/**
 * Turns a validated dialect file into compiled rules.
 *
 * @param lineOf the 1-based line of a path in the file, for messages of later checks
 * @returns the dialect, or the problems that keep it from being used
 */
export function compileDialect(
  file: DialectFile,
  path: string,
  lineOf: (path: Path) => number,
): CompiledDialect | Problem[] {
  const context = new CompileContext(file, lineOf);
  const dialect = dialectOf(context, path);
  const { list } = context.problems;
  if (list.length > 0 || dialect === null) return list;
  const turned = file.time.order === 'by-night' ? inOtherOrder(file) : null;
  return turned === null ? dialect : { ...dialect, other: dialectOf(new CompileContext(turned, lineOf), path) };
}

/** What begins a multi-line entry; `null` where each line, or each object of a document, is an entry. */
function entryStartOf(context: CompileContext): CompiledDialect['entryStart'] {
  const { entries } = context.file;
  if (entries === undefined || entries === 'document' || entries === 'rows' || entries === 'sheet') return null;
  if (typeof entries === 'string') return entries;
  return 'start' in entries ? context.pattern(entries.start, ['entries', 'start']) : null;
}

function dialectOf(context: CompileContext, path: string): CompiledDialect | null {
  const { file } = context;
  if (file.encoding !== 'auto' && !knownEncoding(file.encoding)) {
    context.problems.add(
      ['encoding'],
      `"${file.encoding}" is not an encoding; use "auto", "utf-8", "utf-16le", "windows-1252" or ` +
        'another name of the WHATWG Encoding Standard',
    );
  }
  const time = compileTime(file, context.problems);
  const jobs = compileJobs(context);
  const csv = compileCsv(context);
  const records = compileRecords(context, csv);
  const states = compileStates(context);
  const stateLines = compileStateLines(context);
  const constants = compileConstants(context);
  const sections = compileSections(context);
  const baseInName = compileBaseInName(context);
  const fixedBaseMs = compileFixedBase(context);
  const lines = file.lines.flatMap((line, i) => compileLine(context, line, ['lines', i]) ?? []);
  const ignore = file.ignore.flatMap((when, i) => {
    const compiled = context.when(when, ['ignore', i]);
    return compiled === null ? [] : [{ when: compiled, line: context.lineOf(['ignore', i]) }];
  });
  const guiding = compileGuiding(context);
  const entryStart = entryStartOf(context);
  if (file.lines.length === 0 && file.guiding === undefined) {
    context.problems.add([], 'it makes nothing of any line; add "lines" or "guiding"');
  }
  if (csv !== null && entryStart !== null)
    context.problems.add(
      ['entries'],
      'a log cannot be both CSV and entries of several lines; remove "entries" or "csv"',
    );
  if (file.entries === 'document' && (records?.form !== 'json' || records.time.length === 0))
    context.problems.add(
      ['entries'],
      'the records of a document need "records: { as: json, time: … }", which names their fields with the time',
    );
  if (time === null) return null;
  return {
    name: file.name ?? path,
    file: path,
    encoding: file.encoding,
    decimalComma: context.comma,
    doubled: file.doubled,
    budget: context.problems.budget,
    time,
    other: null,
    entryStart,
    objects: typeof file.entries === 'object' && 'objects' in file.entries ? file.entries.objects : 0,
    document: file.entries === 'document' ? new Set(records?.time) : null,
    isRows: file.entries === 'rows',
    isSheet: file.entries === 'sheet',
    jobs,
    csv,
    records,
    states,
    stateLines,
    train: compileTrain(context),
    trains: new Map(Object.entries(file.trains)),
    constants,
    sections,
    baseInName,
    fixedBaseMs,
    lines,
    ignore,
    guiding,
  };
}
