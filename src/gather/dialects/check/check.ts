import type { EventName } from '../../../model/index.js';
import type { LogRead } from '../../lines/log-read.js';
import type { CompiledDialect, When } from '../compiled.js';
import type { Fate } from '../dialect-reader.js';
import { TemplateTree, templateText } from '../draft/template-tree.js';
import { readObserved, type DialectLogOptions } from '../read-dialect-log.js';
import { TableUses, type TableUse } from './table-uses.js';
import { pairEvents, type Contradiction, type StatedSpan } from './contradictions.js';

/** How many kinds of unmatched line a check lists. */
const LISTED_TEMPLATES = 10;

/** How often one rule of the dialect matched. */
export interface RuleUse {
  readonly kind: 'line' | 'ignore';
  /** Position of the rule in the dialect file. */
  readonly dialectLine: number;
  readonly pattern: string;
  readonly events: readonly EventName[];
  /** Lines or entries it matched. */
  readonly count: number;
  /** When it matched nothing: the kind of unmatched line closest to its words. */
  readonly nearest?: { readonly template: string; readonly line: number };
}

/** A kind of line that no rule matched. */
export interface UnmatchedLines {
  readonly template: string;
  readonly count: number;
  readonly firstLine: number;
}

/** The result of reading a log with a dialect. */
export interface CheckReport {
  readonly file: string;
  readonly dialect: string;
  /** Line counts by fate; `context` covers dates, constants, sections and header rows. */
  readonly lines: Readonly<Record<Fate | 'all', number>>;
  readonly rules: readonly RuleUse[];
  /** Its tables, if it has several. */
  readonly tables: readonly TableUse[];
  /** The most common kinds, at most ten, and the total number of kinds. */
  readonly unmatched: readonly UnmatchedLines[];
  readonly unmatchedKinds: number;
  readonly spans: readonly StatedSpan[];
  readonly contradictions: readonly Contradiction[];
  /** The events, samples and warnings themselves. */
  readonly read: LogRead;
}

/**
 * Reads a log with a dialect and reports what became of every line.
 *
 * @param rootDir the folder that the path is relative to
 */
export async function checkDialect(
  rootDir: string,
  relativePath: string,
  dialect: CompiledDialect,
  options: DialectLogOptions = {},
): Promise<CheckReport> {
  const lines: Record<Fate | 'all', number> = {
    all: 0,
    events: 0,
    sample: 0,
    context: 0,
    ignored: 0,
    unusable: 0,
    unmatched: 0,
  };
  const lineUses = dialect.lines.map(() => 0);
  const ignoreUses = dialect.ignore.map(() => 0);
  const unmatched = new TemplateTree(dialect.decimalComma);
  const tables = new TableUses(dialect.csv ?? []);
  const read = await readObserved(rootDir, relativePath, dialect, options, (line, count, text, fate, rule, table) => {
    lines.all += count;
    lines[fate] += count;
    if (fate === 'unmatched') unmatched.add(text, line);
    if (table !== null) tables.add(table, line, count, fate);
    const uses = fate === 'ignored' ? ignoreUses : lineUses;
    if (rule >= 0) uses[rule] = (uses[rule] ?? 0) + 1;
  });
  const use = (
    kind: RuleUse['kind'],
    when: When,
    dialectLine: number,
    events: readonly EventName[],
    count: number,
  ): RuleUse => {
    const pattern = whenText(when);
    const nearest = count > 0 ? null : unmatched.nearest(wordsOfPattern(pattern));
    return {
      kind,
      dialectLine,
      pattern,
      events,
      count,
      ...(nearest === null ? {} : { nearest: { template: templateText(nearest), line: nearest.firstLine } }),
    };
  };
  const templates = unmatched.templates();
  return {
    file: relativePath,
    dialect: dialect.name,
    lines,
    rules: [
      ...dialect.lines.map((rule, i) => {
        const events = [...rule.events, ...rule.also.flatMap((one) => one.events)];
        return use('line', rule.when, rule.line, [...new Set(events)], lineUses[i] ?? 0);
      }),
      ...dialect.ignore.map((rule, i) => use('ignore', rule.when, rule.line, [], ignoreUses[i] ?? 0)),
    ],
    tables: tables.list,
    unmatched: templates
      .slice(0, LISTED_TEMPLATES)
      .map((template) => ({ template: templateText(template), count: template.count, firstLine: template.firstLine })),
    unmatchedKinds: templates.length,
    ...pairEvents(read.events),
    read,
  };
}

function whenText(when: When): string {
  return when.kind === 'text'
    ? when.pattern.source
    : when.cells.map(({ column, pattern }) => `${column}: ${pattern.source}`).join(', ');
}

/** The words that a pattern contains literally. */
function wordsOfPattern(source: string): string {
  return source.replace(/\(\?P?<\w+>|\(\?[a-z]*:?|\\[a-zA-Z]|\[[^\]]*\]/g, ' ').replace(/[\\^$.*+?()[\]{}|]/g, ' ');
}
