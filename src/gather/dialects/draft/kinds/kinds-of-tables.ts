import { TABLE } from '../../csv-tables.js';
import { escaped } from '../escaped.js';
import { rowKinds } from '../exposures/row-kinds.js';
import { cutsShort, isSubject } from '../lexicon/said.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import type { TableReading } from '../reading/reading.js';
import type { Kind } from './kind.js';
import { isValue } from './message-path.js';

const ABORTED = 2;

/** The kinds of row of several tables, each identified by its own columns. */
export function kindsOfTables(tables: readonly TableReading[], decimalComma: boolean): Kind[] {
  return tables.flatMap((table) => {
    const kinds = rowKinds(table.fieldLines, { timePaths: table.timePaths, decimalComma }, table.heading);
    // If no row names its subject, the heading does, also if only the heading distinguishes the table.
    const isHeaded =
      table.below !== null ||
      isOfAborted(table.heading) ||
      (table.heading !== '' && !kinds.some(({ wording }) => isSubject(wording)));
    // `paused` under `guiding`, beside `star lost`: a row without a subject has that of its heading.
    const isAbout = isSubject(table.heading);
    return kinds.map((kind) => {
      const lacks = kind.exposure === undefined && !isSubject(kind.wording);
      const heading = isHeaded || (isAbout && lacks) ? table.heading : lacks ? subjectOf(table) : '';
      return ofTable(heading === '' ? kind : headed(kind, heading), table, tables);
    });
  });
}

/** What the column of words of one type of row is titled by: `on` below `hold_edge`, `sensor` below `cooler_item`. */
function subjectOf({ only, columns, fieldLines }: TableReading): string {
  if (only === undefined) return '';
  const ofWords = columns.filter((path) => !fieldLines.some(({ fields }) => isValue(fields.get(path) ?? '')));
  return ofWords.map((name) => name.replace(/[_.-]+/g, ' ')).find(isSubject) ?? '';
}

/** Whether a heading says that the rows are aborted exposures: what they say besides is why. */
function isOfAborted(heading: string): boolean {
  return cutsShort(heading) && (wordEvidence(heading).get('exposure-abort') ?? 0) >= ABORTED;
}

function headed(kind: Kind, heading: string): Kind {
  return { ...kind, wording: `${heading} ${kind.wording}`.trim() };
}

/** The kind restricted to its table, if another table has the same columns. */
function ofTable(kind: Kind, table: TableReading, tables: readonly TableReading[]): Kind {
  const others = tables.filter((one) => one !== table);
  return {
    ...kind,
    when: (groups) => {
      const when = kind.when(groups);
      if (typeof when === 'string') return when;
      const isAnyones = others.some(({ columns }) => Object.keys(when).every((path) => columns.includes(path)));
      return isAnyones ? { [TABLE]: `^${escaped(table.name)}$`, ...when } : when;
    },
  };
}
