import type { GuidingSeries } from '../../model/guiding.js';
import type { Warning } from '../../model/warning.js';
import {
  EARLIEST_YEAR,
  GUIDING_ARCSEC,
  isPlausibleInstant,
  isWithin,
  LATEST_YEAR,
  SIGNAL_TO_NOISE,
} from '../../vocabulary/bounds.js';
import { parseCsv } from '../lines/csv-library.js';
import type { LogFile } from '../lines/log-read.js';
import { plainNumber } from '../lines/number-bytes.js';
import { blockText, lineEnd, lineStart, readLines, type LineBlock } from '../lines/read-lines.js';
import { rfc3339, rfc3339FromBytes } from '../lines/rfc3339.js';
import { SampleColumns } from '../lines/sample-columns.js';
import { WarningTally } from '../lines/warning-tally.js';

/** One guiding log turned into samples. */
export interface GuidingRead extends LogFile {
  /** `null` when no row could be used. */
  readonly series: GuidingSeries | null;
  readonly warnings: readonly Warning[];
  /** Lines that gave a sample, and the header. */
  readonly understood: number;
}

/**
 * Reads nightledger's own guiding log: CSV with a header that names the columns `at` (RFC 3339 with offset),
 * `ra_arcsec`, `dec_arcsec` and, if there is one, `snr`, in any order among any others.
 * Never throws: a row that cannot be read costs that row and a warning.
 *
 * @param rootDir the session folder
 * @param relativePath the log, relative to it, with forward slashes
 */
export async function readGuidingCsv(rootDir: string, relativePath: string): Promise<GuidingRead> {
  const tally = new WarningTally(relativePath);
  const rows = new GuidingRows(tally);
  const file = await readLines(rootDir, relativePath, 'auto', tally, (block) => rows.take(block));
  if (!rows.samples.inOrder) {
    tally.add(
      'unsorted-samples',
      0,
      () => `The rows of ${relativePath} are not in the order of their times; they were sorted.`,
    );
  }
  const series = rows.samples.toSeries([{ file: relativePath }]);
  return { series, understood: rows.understood, ...file, warnings: tally.list() };
}

/** Column indices; −1 if missing. */
interface Columns {
  readonly at: number;
  readonly ra: number;
  readonly dec: number;
  readonly snr: number;
}

const USUAL: Columns = { at: 0, ra: 1, dec: 2, snr: 3 };
const COMMA = 0x2c;

class GuidingRows {
  readonly samples = new SampleColumns();
  understood = 0;
  private columns: Columns | undefined;

  constructor(private readonly tally: WarningTally) {}

  /** Plain rows are read from their bytes; a run of others is passed to the CSV library in one piece. */
  take(block: LineBlock): void {
    let oddFrom = -1;
    for (let i = 0; i < block.count; i++) {
      const start = lineStart(block, i);
      const end = lineEnd(block, i);
      if (end === start || (this.columns !== undefined && this.takePlain(block.bytes, start, end, this.columns))) {
        if (oddFrom >= 0) this.takeOdd(block, oddFrom, i);
        oddFrom = -1;
      } else if (this.columns === undefined) {
        this.takeHeader(blockText(block, start, end), block.firstLine + i);
      } else if (oddFrom < 0) {
        oddFrom = i;
      }
    }
    if (oddFrom >= 0) this.takeOdd(block, oddFrom, block.count);
  }

  private takeHeader(text: string, line: number): void {
    const names = (parseRows(text)[0] ?? []).map((name) => name.trim().toLowerCase());
    const columns = {
      at: names.indexOf('at'),
      ra: names.indexOf('ra_arcsec'),
      dec: names.indexOf('dec_arcsec'),
      snr: names.indexOf('snr'),
    };
    if (columns.at >= 0 && columns.ra >= 0 && columns.dec >= 0) {
      this.columns = columns;
      this.understood++;
      return;
    }
    this.columns = USUAL;
    this.tally.add(
      'no-header',
      line,
      () => `Line ${line} should name the columns "at,ra_arcsec,dec_arcsec" (and "snr"); that order was assumed.`,
    );
    this.takeCells(parseRows(text)[0] ?? [], line);
  }

  private takePlain(bytes: Buffer, start: number, end: number, columns: Columns): boolean {
    let at = NaN;
    let ra = NaN;
    let dec = NaN;
    let snr = NaN;
    let column = 0;
    for (let from = start; from <= end; column++) {
      let to = from;
      while (to < end && bytes[to] !== COMMA) to++;
      if (column === columns.at) at = rfc3339FromBytes(bytes, from, to);
      else {
        // One call for all: each would be a copy that V8 takes time to optimise.
        const number = plainNumber(bytes, from, to);
        if (column === columns.ra) ra = number;
        else if (column === columns.dec) dec = number;
        else if (column === columns.snr && to > from) {
          snr = number;
          if (Number.isNaN(snr)) return false;
        }
      }
      from = to + 1;
    }
    if (!isSample(at, ra, dec) || !(Number.isNaN(snr) || isWithin(snr, SIGNAL_TO_NOISE))) return false;
    this.samples.push(at, ra, dec, snr);
    this.understood++;
    return true;
  }

  private takeOdd(block: LineBlock, first: number, beyond: number): void {
    const rows = parseRows(blockText(block, lineStart(block, first), lineEnd(block, beyond - 1)));
    const oneEach = rows.length === beyond - first;
    for (let i = first; i < beyond; i++) {
      // An unclosed quote swallows the lines after it: then each line is parsed individually.
      const cells = oneEach ? rows[i - first] : parseRows(blockText(block, lineStart(block, i), lineEnd(block, i)))[0];
      this.takeCells(cells ?? [], block.firstLine + i);
    }
  }

  private takeCells(cells: readonly string[], line: number): void {
    const columns = this.columns ?? USUAL;
    const cell = (column: number): string => (column < 0 ? '' : (cells[column] ?? '').trim());
    const at = rfc3339(cell(columns.at));
    if (!isPlausibleInstant(at)) {
      this.tally.add(
        'unreadable-time',
        line,
        () =>
          `Line ${line} was left out: "at" must be a time with offset such as "2026-10-14T19:42:10.250Z", of ` +
          `the years ${EARLIEST_YEAR} to ${LATEST_YEAR}.`,
      );
      return;
    }
    const ra = toNumber(cell(columns.ra));
    const dec = toNumber(cell(columns.dec));
    if (!isSample(at, ra, dec)) {
      this.tally.add(
        'unreadable-sample',
        line,
        () =>
          `Line ${line} was left out: "ra_arcsec" and "dec_arcsec" must be numbers with a decimal point, from ` +
          `${GUIDING_ARCSEC.from} to ${GUIDING_ARCSEC.to}.`,
      );
      return;
    }
    const snr = cell(columns.snr);
    const ratio = toNumber(snr);
    const isRatio = isWithin(ratio, SIGNAL_TO_NOISE);
    if (snr !== '' && !isRatio) {
      this.tally.add(
        'wrong-field',
        line,
        () => `Line ${line}: "snr" must be a number from 0 to ${SIGNAL_TO_NOISE.to}; the sample was kept without it.`,
        'snr',
      );
    }
    this.samples.push(at, ra, dec, isRatio ? ratio : NaN);
    this.understood++;
  }
}

function isSample(atMs: number, ra: number, dec: number): boolean {
  return isPlausibleInstant(atMs) && isWithin(ra, GUIDING_ARCSEC) && isWithin(dec, GUIDING_ARCSEC);
}

/** Rows of cells; CRLF within a run of lines is the line's end, too. */
function parseRows(text: string): readonly (readonly string[])[] {
  const lines = text.replaceAll('\r\n', '\n');
  return lines.includes('"') ? parseCsv(lines, ',') : lines.split('\n').map((line) => line.split(','));
}

/** The finite number a cell states, or NaN. */
function toNumber(cell: string): number {
  const value = cell === '' ? NaN : Number(cell);
  return Number.isFinite(value) ? value : NaN;
}
