import { detectEncoding, transcoder, type Transcoder } from './encoding.js';
import type { TextForm } from './log-read.js';
import type { WarningTally } from './warning-tally.js';

const HEAD_BYTES = 64 * 1024;
const LF = 0x0a;
const CR = 0x0d;

/** Turns chunks into UTF-8 with line feeds. */
export class ChunkDecoder {
  label = 'utf-8';
  lineEnding: TextForm['lineEnding'] = 'LF';
  private transcode: Transcoder | undefined;
  private isFirst = true;

  constructor(
    private readonly wanted: string,
    private readonly tally: WarningTally,
  ) {}

  decode(chunk: Buffer): Buffer {
    const body = this.isFirst ? this.start(chunk) : chunk;
    this.isFirst = false;
    const text = this.transcode === undefined ? body : this.transcode(body);
    if (this.lineEnding === 'CR') returnsToFeeds(text);
    return text;
  }

  finish(): Buffer {
    return this.transcode === undefined ? Buffer.alloc(0) : this.transcode();
  }

  /** Finds out how the text is written. @returns the chunk without a byte-order mark */
  private start(chunk: Buffer): Buffer {
    const detected = detectEncoding(chunk.subarray(0, HEAD_BYTES));
    this.label = this.wanted === 'auto' || detected.skip > 0 ? detected.label : this.wanted;
    if (this.wanted !== 'auto' && detected.skip > 0 && !sameEncoding(this.wanted, detected.label)) {
      this.tally.add(
        'other-encoding',
        1,
        () => `The byte-order mark says ${detected.label}, not ${this.wanted}; the mark was followed.`,
      );
    }
    const body = chunk.subarray(detected.skip);
    // Lines that are not UTF-8 are handled individually later: a head with such a line says nothing about the rest.
    const isGuess = this.wanted === 'auto' && this.label === 'windows-1252';
    if (!isGuess && !sameEncoding(this.label, 'utf-8')) this.transcode = transcoder(this.label);
    const head = body.subarray(0, HEAD_BYTES);
    const text = this.transcode === undefined ? head : transcoder(this.label)(head);
    const feed = text.indexOf(LF);
    this.lineEnding = feed > 0 && text[feed - 1] === CR ? 'CRLF' : feed === -1 && text.includes(CR) ? 'CR' : 'LF';
    return body;
  }
}

function sameEncoding(a: string, b: string): boolean {
  return a === b || new TextDecoder(a).encoding === new TextDecoder(b).encoding;
}

function returnsToFeeds(text: Buffer): void {
  for (let i = text.indexOf(CR); i !== -1; i = text.indexOf(CR, i + 1)) text[i] = LF;
}
