import { TABLE } from '../../csv-tables.js';
import { escaped } from '../escaped.js';
import { rowKinds } from '../exposures/row-kinds.js';
import { cutsShort, isSubject } from '../lexicon/said.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import type { TableReading } from '../reading/reading.js';
import type { Kind } from './kind.js';

const ABORTED = 2;

/** The kinds of row of several tables, each identified by its own columns. */
export function kindsOfTables(tables: readonly TableReading[], decimalComma: boolean): Kind[] {
  return tables.flatMap((table) => {
    const kinds = rowKinds(table.fieldLines, table.timePaths, decimalComma, table.heading);
    // If no row names its subject, the heading does, also if only the heading distinguishes the table.
    const isHeaded =
      table.below !== null ||
      isOfAborted(table.heading) ||
      (table.heading !== '' && !kinds.some(({ wording }) => isSubject(wording)));
    // `paused` under `guiding`, beside `star lost`: a row without a subject has that of its heading.
    const isAbout = isSubject(table.heading);
    return kinds.map((kind) => {
      const lacks = isAbout && kind.exposure === undefined && !isSubject(kind.wording);
      return ofTable(isHeaded || lacks ? headed(kind, table.heading) : kind, table, tables);
    });
  });
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
