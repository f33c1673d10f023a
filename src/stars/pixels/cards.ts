/**
 * The mandatory cards of a FITS data unit (FITS Standard 4.0, sections 4 and 10.1). Cards about the exposure are not
 * read here.
 */
import { NotMeasured } from '../not-measured.js';

export const CARD_BYTES = 80;
export const BLOCK_BYTES = 2880;
/** Longer headers are not those of a camera's frame. */
const MAX_BLOCKS = 2000;

/** Reads bytes one after another. */
export interface ByteReader {
  /** The next bytes; fewer only at the end. The buffer is valid until the next call. */
  read(length: number): Promise<Buffer>;
  /** Skips bytes. */
  skip(length: number): Promise<void>;
}

const BEYOND_ASCII = /[\u0080-\u00ff]/;

export type CardValue = string | number | boolean;

/** The cards of one header. Of a repeated keyword the first counts, as in other FITS readers. */
export class HeaderCards {
  /** @param bytes size of the header, in whole blocks */
  constructor(
    private readonly values: ReadonlyMap<string, CardValue>,
    readonly bytes: number,
  ) {}

  text(keyword: string): string | undefined {
    const value = this.values.get(keyword);
    return typeof value === 'string' ? value.trim().toUpperCase() : undefined;
  }

  flag(keyword: string): boolean {
    return this.values.get(keyword) === true;
  }

  has(keyword: string): boolean {
    return this.values.has(keyword);
  }

  number(keyword: string): number | undefined {
    const value = this.values.get(keyword);
    return typeof value === 'number' ? value : undefined;
  }

  /**
   * An integer within limits.
   * @throws NotMeasured when the card is missing without a default, or holds something else
   */
  whole(keyword: string, from: number, to: number, otherwise?: number): number {
    const value = this.values.get(keyword) ?? otherwise;
    if (typeof value === 'number' && Number.isInteger(value) && value >= from && value <= to) return value;
    throw new NotMeasured(
      value === undefined
        ? `the mandatory card ${keyword} is missing: the header is damaged`
        : `${keyword} is ${String(value).slice(0, 40)}, which is impossible for an image: the header is damaged`,
    );
  }
}

/**
 * Reads one header; `undefined` where the file ends before it.
 * @param isFirst whether it is the file's first, which begins with SIMPLE
 */
export async function readHeader(reader: ByteReader, isFirst: boolean): Promise<HeaderCards | undefined> {
  const values = new Map<string, CardValue>();
  let isBeyondAscii = false;
  for (let block = 0; block < MAX_BLOCKS; block++) {
    const bytes = await reader.read(BLOCK_BYTES);
    if (bytes.length === 0 && block === 0) return undefined;
    if (isFirst && block === 0 && bytes.toString('latin1', 0, 6) !== 'SIMPLE')
      throw new NotMeasured('it does not begin like a FITS file');
    const text = bytes.toString('latin1');
    // Pixels are read as cards where END was missed.
    if (block === 0) isBeyondAscii = BEYOND_ASCII.test(text);
    if (bytes.length < BLOCK_BYTES && !isBeyondAscii)
      throw new NotMeasured('the file ends inside its header: copy it again');
    if (bytes.length < BLOCK_BYTES) break;
    for (let at = 0; at < BLOCK_BYTES; at += CARD_BYTES) {
      const keyword = text.slice(at, at + 8).trimEnd();
      if (keyword === 'END') return new HeaderCards(values, (block + 1) * BLOCK_BYTES);
      if (text[at + 8] !== '=' || values.has(keyword)) continue;
      const value = parseValue(text.slice(at + 9, at + CARD_BYTES).trim());
      if (value !== undefined) values.set(keyword, value);
    }
  }
  throw new NotMeasured(
    isBeyondAscii
      ? 'characters beyond ASCII shift the cards of its header, and where its pixels begin is not known'
      : 'its header has no END card: the file is damaged or not a FITS file',
  );
}

function parseValue(field: string): CardValue | undefined {
  if (field.startsWith("'")) {
    const string = /^'((?:[^']|'')*)/.exec(field)?.[1] ?? '';
    return string.replaceAll("''", "'").trimEnd();
  }
  const word = field.split('/', 1)[0]?.trim() ?? '';
  if (word === 'T' || word === 'F') return word === 'T';
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][+-]?\d+)?$/.test(word)) return undefined;
  return Number(word.replace(/[dD]/, 'e'));
}
