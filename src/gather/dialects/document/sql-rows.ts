import { namesFor, namesIn, type Table } from './lookup-tables.js';

/** What can begin a dump, and what a dump contains. */
const BEGINS = /^\s*(?:--|\/\*|(?:create|insert|begin|pragma|set|start|drop|use|lock|copy)\b)/i;
const INSERTS = /\b(?:insert\s+(?:or\s+\w+\s+)?into|copy)\s/i;
/** Begins an entry of a table definition that is not a column. */
const NO_COLUMN = /^(?:primary|foreign|unique|key|constraint|check|index|fulltext|exclude|period)$/i;
const MIN_ROWS = 3;

/** Whether a text may be a database dump, judged by its beginning. */
export function mayBeDump(head: string): boolean {
  return BEGINS.test(head) && INSERTS.test(head);
}

/**
 * The rows inserted by a database dump (SQL, ISO/IEC 9075) as tab-separated lines: each table below its name and a row
 * with its column names, with comments above. Numbers that refer to a lookup table are replaced by its names. `null` if
 * the text is not a dump.
 */
export function sqlRows(text: string): string[] | null {
  if (!mayBeDump(text.slice(0, 65_536))) return null;
  const { remarks, tables } = new Dump(text).read();
  const filled = [...tables.values()].filter(({ rows }) => rows.length > 0);
  if (filled.reduce((sum, { rows }) => sum + rows.length, 0) < MIN_ROWS) return null;
  const names = new Map(
    filled.flatMap((table): (readonly [string, ReadonlyMap<string, string>])[] => {
      const own = namesIn(table);
      return own === null ? [] : [[table.name, own]];
    }),
  );
  const telling = filled.filter(({ name }) => !names.has(name));
  return [
    ...remarks,
    ...telling.flatMap((table) => [table.name, columnsOf(table).join('\t'), ...table.rows.map(rowOf(table, names))]),
  ];
}

function columnsOf({ columns, rows }: Table): string[] {
  const width = rows.reduce((widest, { length }) => Math.max(widest, length), 0);
  return Array.from({ length: width }, (_, i) => columns[i] ?? `column${i + 1}`);
}

/** A row with its numbers replaced by the names they refer to. */
function rowOf(
  table: Table,
  names: ReadonlyMap<string, ReadonlyMap<string, string>>,
): (row: readonly string[]) => string {
  const byColumn = table.columns.map((_, i) => namesFor(table, i, names));
  return (row) => row.map((cell, i) => byColumn[i]?.get(cell) ?? cell).join('\t');
}

/** Scans a dump once, from beginning to end. */
class Dump {
  private at = 0;
  private readonly remarks: string[] = [];
  private readonly tables = new Map<string, Table>();

  constructor(private readonly text: string) {}

  read(): { readonly remarks: readonly string[]; readonly tables: ReadonlyMap<string, Table> } {
    for (let word = this.next(); word !== null; word = this.next()) {
      const verb = word.toLowerCase();
      if (verb === 'create') this.create();
      else if (verb === 'insert' || verb === 'replace') this.insert();
      else if (verb === 'copy') this.copy();
      else this.skipTo(';', word);
    }
    return { remarks: this.remarks, tables: this.tables };
  }

  private create(): void {
    if (this.skipTo('table') === ';') return;
    const [name = ''] = this.wordsUpTo('(').slice(-1);
    const table = this.tableOf(name);
    for (const [column = '', ...rest] of this.list()) {
      if (column === '' || NO_COLUMN.test(column)) continue;
      table.columns.push(column);
      const refers = rest.findIndex((word) => word.toLowerCase() === 'references');
      if (refers >= 0) table.refers.set(column, rest[refers + 1] ?? '');
    }
    this.skipTo(';');
  }

  private insert(): void {
    const [name = ''] = this.wordsUpTo('(', 'values').slice(-1);
    const table = this.tableOf(name);
    if (this.last === '(') {
      const columns = this.list().map(([column = '']) => column);
      if (table.rows.length === 0) table.columns = columns;
    }
    for (let word = this.next(); word !== null && word !== ';'; word = this.next())
      if (word === '(')
        table.rows.push(
          this.list().map((words) => (/^null$/i.test(words[0] ?? '') ? '' : words.join('').replace(/\s+/gu, ' '))),
        );
  }

  /** Rows of a table as tab-separated lines, up to the terminating `\.`. */
  private copy(): void {
    const [name = ''] = this.wordsUpTo('(', 'from').slice(-1);
    const table = this.tableOf(name);
    if (this.last === '(') table.columns = this.list().map(([column = '']) => column);
    this.skipTo(';');
    const end = this.text.indexOf('\n\\.', this.at);
    for (const line of this.text.slice(this.at, end < 0 ? undefined : end).split(/\r?\n/))
      if (line.trim() !== '') table.rows.push(line.split('\t').map((cell) => (cell === '\\N' ? '' : cell)));
    this.at = end < 0 ? this.text.length : end + 3;
  }

  private tableOf(name: string): Table {
    const known = this.tables.get(name);
    if (known !== undefined) return known;
    const table: Table = { name, columns: [], rows: [], refers: new Map() };
    this.tables.set(name, table);
    return table;
  }

  /** The tokens up to one of these, or to the end of the statement. */
  private wordsUpTo(...ends: readonly string[]): string[] {
    const words: string[] = [];
    for (let word = this.next(); word !== null && word !== ';'; word = this.next()) {
      if (ends.includes(word.toLowerCase())) break;
      words.push(word);
    }
    return words;
  }

  /** The tokens between the commas of a parenthesised list that is already open. */
  private list(): string[][] {
    const entries: string[][] = [[]];
    let depth = 0;
    for (let word = this.next(); word !== null; word = this.next()) {
      if (word === ')' && depth-- === 0) break;
      if (word === '(') depth++;
      else if (word === ',' && depth === 0) entries.push([]);
      else if (word !== ')') entries.at(-1)?.push(word);
    }
    return entries;
  }

  private skipTo(end: string, first: string | null = ''): string | null {
    let word = first;
    while (word !== null && word !== ';' && word.toLowerCase() !== end) word = this.next();
    return word;
  }

  /** The last token read. */
  private last = '';

  /** The next word, text or punctuation; comments are recorded. `null` at the end. */
  private next(): string | null {
    const { text } = this;
    while (this.at < text.length) {
      const from = this.at;
      const mark = text.charAt(from);
      if (/\s/u.test(mark)) this.at++;
      else if (text.startsWith('--', from)) this.remark(2, '\n');
      else if (text.startsWith('/*', from)) this.remark(2, '*/');
      else if (mark === "'" || mark === '"' || mark === '`') return this.quoted(mark);
      else {
        WORD.lastIndex = from;
        this.at = WORD.test(text) ? WORD.lastIndex : from + 1;
        this.last = text.slice(from, this.at);
        return this.last;
      }
    }
    return null;
  }

  private remark(length: number, end: string): void {
    const to = this.text.indexOf(end, this.at + length);
    const said = this.text.slice(this.at + length, to < 0 ? undefined : to).trim();
    if (said !== '') this.remarks.push(said.replace(/\s+/gu, ' '));
    this.at = to < 0 ? this.text.length : to + end.length;
  }

  /** A quoted text: the quote inside it is doubled or escaped with a backslash. */
  private quoted(mark: string): string {
    const { text } = this;
    let said = '';
    let from = ++this.at;
    for (; this.at < text.length; this.at++) {
      const one = text.charAt(this.at);
      const isDoubled = one === mark && text.charAt(this.at + 1) === mark;
      if (one === mark && !isDoubled) break;
      if (one !== '\\' && !isDoubled) continue;
      said += text.slice(from, this.at);
      from = ++this.at;
    }
    said += text.slice(from, this.at++);
    this.last = '';
    return said;
  }
}

/** Punctuation or a word. */
const WORD = /[(),;]|[^\s(),;'"`]+/uy;
