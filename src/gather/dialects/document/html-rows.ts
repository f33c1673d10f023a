/** Elements whose content is not text. */
const SKIPPED: ReadonlySet<string> = new Set(['script', 'style']);
/** Inline elements. */
const INLINE: ReadonlySet<string> = new Set(
  'a abbr b code em font i img input kbd small span strong sub sup u wbr'.split(' '),
);
const MOST_COLUMNS = 200;
const MOST_ROWS = 9999;
/** Rows of a page that is one of tables. */
const MIN_ROWS = 3;

/**
 * The rows of an HTML page's tables as tab-separated lines, with the lines of text around them; `null` if the text is
 * not such a page. Runs in linear time for any input.
 */
export function htmlRows(text: string): string[] | null {
  if (!/<table[\s>]/i.test(text) || !/<tr[\s>]/i.test(text)) return null;
  const page = new Page();
  for (let i = 0; i < text.length; ) {
    const open = text.indexOf('<', i);
    if (open < 0) break;
    page.say(text.slice(i, open));
    const isComment = text.startsWith('<!--', open);
    const close = text.indexOf(isComment ? '-->' : '>', open + 1);
    if (close < 0) break;
    i = close + (isComment ? 3 : 1);
    const name = isComment ? '' : (NAME.exec(text.slice(open + 1, open + 20))?.[0] ?? '').toLowerCase();
    if (name === '') continue;
    page.tag(name, text.slice(open + 1, Math.min(close, open + 400)));
    if (!SKIPPED.has(name)) continue;
    const end = text.indexOf(`</${name}`, i);
    if (end < 0) break;
    i = end;
  }
  page.endRow();
  return page.rows < MIN_ROWS ? null : page.lines;
}

const NAME = /^\/?[a-z][a-z0-9]*/i;

/** Between lines of a cell: no character of a page. */
const BREAK = '\0';
/** A line that says something: it begins with a word. */
const WORDS = /^\p{L}{2}|^\p{Script=Han}/u;

/** The text collected so far. */
class Page {
  readonly lines: string[] = [];
  rows = 0;
  private cells: string[] | null = null;
  private isCell = false;
  private text: string[] = [];
  /** How many columns and rows the cell takes up that is open. */
  private columns = 1;
  private deep = 1;
  /** How many columns the widest cell of the row takes up. */
  private widest = 0;
  /** By column, what goes on in the rows below, and in how many. */
  private merged: { readonly text: string; left: number }[] = [];
  /** Whether all cells of the row are headers; and, by column, the group header above. */
  private isHead = true;
  private over: string[] | null = null;
  private heads: readonly string[] = [];
  private groups: string[] = [];

  say(text: string): void {
    if (text !== '') this.text.push(text);
  }

  tag(name: string, whole: string): void {
    switch (name) {
      case 'tr':
        this.endRow();
        this.endLine();
        this.cells = [];
        return;
      case 'td':
      case 'th':
        this.endCell();
        this.cells ??= [];
        this.fillMerged(this.cells);
        this.isCell = true;
        this.text = [];
        this.isHead &&= name === 'th';
        this.columns = Math.min(Number(/\bcolspan\s*=\s*["']?(\d{1,3})/i.exec(whole)?.[1] ?? 1), MOST_COLUMNS);
        this.deep = Math.min(Number(/\browspan\s*=\s*["']?(\d{1,4})/i.exec(whole)?.[1] ?? 1), MOST_ROWS);
        return;
      case '/td':
      case '/th':
        this.endCell();
        return;
      case '/tr':
        this.endRow();
        this.endLine();
        return;
      case 'table':
      case '/table':
        this.endRow();
        this.endLine();
        this.merged = [];
        this.over = null;
        return;
      default:
        if (this.cells !== null) this.say(INLINE.has(name.replace('/', '')) ? '' : this.isHead ? ' ' : BREAK);
        else if (!INLINE.has(name.replace('/', ''))) this.endLine();
    }
  }

  endRow(): void {
    this.endCell();
    const { cells, isHead, groups, over, widest } = this;
    this.cells = null;
    this.isHead = true;
    this.groups = [];
    this.widest = 0;
    if (cells === null) return;
    this.fillMerged(cells);
    // Heads over groups of columns, with the names of these below: both make their names.
    if (isHead && groups.some((group) => group !== '') && cells.filter((cell) => cell !== '').length > 1) {
      this.over = groups;
      this.heads = cells;
      return;
    }
    this.over = null;
    if (isHead && over !== null) this.put(cells.map((cell, i) => `${over[i] ?? ''} ${cell}`.trim()));
    else {
      if (over !== null) this.put(this.heads);
      this.put(cells, cells.length > 1 && widest === cells.length && cells.some((cell) => /\p{L}/u.test(cell)));
    }
  }

  private put(cells: readonly string[], isHeading = false): void {
    const filled = cells.filter((cell) => cell !== '');
    if (filled.length === 0) return;
    // A cell over all columns is a heading, not a cell of the last one.
    this.lines.push(isHeading ? filled.join() : cells.join('\t'));
    this.rows++;
  }

  /** Cells of rows above that go on where this row's next cell would stand. */
  private fillMerged(cells: string[]): void {
    for (let one = this.merged[cells.length]; one !== undefined && one.left > 0; one = this.merged[cells.length]) {
      one.left--;
      cells.push(one.text);
    }
  }

  private endCell(): void {
    if (!this.isCell || this.cells === null) return;
    this.isCell = false;
    const text = this.said();
    this.widest = Math.max(this.widest, this.columns);
    for (let i = 1; i <= this.columns && this.cells.length < MOST_COLUMNS; i++) {
      const own = i === this.columns ? text : '';
      const column = this.cells.length;
      while (this.merged.length < column) this.merged.push({ text: '', left: 0 });
      this.merged[column] = { text: own, left: this.deep - 1 };
      this.groups[column] = this.columns > 1 ? text : '';
      this.cells.push(own);
    }
  }

  private endLine(): void {
    const line = this.said();
    if (line !== '') this.lines.push(line);
  }

  private said(): string {
    const text = unescaped(this.text.join(''));
    this.text = [];
    const lines = text.split(BREAK).map((line) => line.replace(/\s+/gu, ' ').trim());
    // Lines of words are things of their own; a date above its time is one.
    return lines
      .filter((line) => line !== '')
      .reduce(
        (said, line) => said + (said === '' ? '' : WORDS.test(said) && WORDS.test(line) ? ' / ' : ' ') + line,
        '',
      );
  }
}

/** Named character references (HTML). */
const NAMED: ReadonlyMap<string, string> = new Map(
  (
    'lt< gt> amp& quot" apos\' deg° microµ times× plusmn± minus− ndash– mdash— hellip… rarr→ larr← prime′ Prime″ ' +
    'middot· szligß aumlä oumlö uumlü AumlÄ OumlÖ UumlÜ eacuteé egraveè ecircê agraveà acircâ ccedilç ocircô ucircû ' +
    'icircî aacuteá iacuteí oacuteó uacuteú ntildeñ atildeã otildeõ igraveì ograveò ugraveù aringå oslashø aeligæ'
  )
    .split(' ')
    .map((pair) => [pair.slice(0, -1), pair.slice(-1)] as const),
);

function unescaped(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(?:#(\d{1,7})|#x([0-9a-f]{1,6})|([a-z]{2,8}));/gi, (whole, decimal, hex, name: string) => {
    if (name === 'nbsp') return ' ';
    if (name !== undefined) return NAMED.get(name) ?? whole;
    const code = decimal === undefined ? Number.parseInt(String(hex), 16) : Number(decimal);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}
