import { createRequire } from 'node:module';

type Library = typeof import('papaparse');

let library: Library | undefined;

/**
 * Splits CSV text into rows of cells, with quotes. The library is loaded when the first quoted line is met: most
 * logs have none.
 */
export function parseCsv(text: string, delimiter: string, quoteChar = '"'): readonly (readonly string[])[] {
  library ??= createRequire(import.meta.url)('papaparse') as Library;
  return library.parse<string[]>(text, { delimiter, quoteChar, header: false, skipEmptyLines: false, newline: '\n' })
    .data;
}
