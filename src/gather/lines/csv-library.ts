import library from 'papaparse';

/** Splits CSV text into rows of cells, with quotes. */
export function parseCsv(text: string, delimiter: string, quoteChar = '"'): readonly (readonly string[])[] {
  return library.parse<string[]>(text, { delimiter, quoteChar, header: false, skipEmptyLines: false, newline: '\n' })
    .data;
}
