/** How a log that is one document becomes lines. */
export interface DocumentLines {
  /** A larger one is read by its lines, bytes of UTF-8. */
  readonly maxBytes: number;
  /** Whether a text with this beginning may be one, besides elements and objects. */
  mayBegin?(head: string): boolean;
  /** The lines of a whole document, or `null` where the text is none. */
  linesOf(text: string): readonly string[] | null;
}

/** Holds a text back that begins as a document does, until all of it is there; any other passes through. */
export class DocumentBuffer {
  private held: Buffer[] | null = [];
  private size = 0;
  private isOne = false;

  constructor(private readonly document: DocumentLines) {}

  /** Whether the text was a document, and its lines are records already. */
  get isDocument(): boolean {
    return this.isOne;
  }

  /** @returns what can be read on already */
  push(text: Buffer): Buffer {
    if (this.held === null) return text;
    const isFirst = this.size === 0;
    // The next chunk may come in the same bytes.
    this.held.push(Buffer.from(text));
    this.size += text.length;
    if (this.size <= this.document.maxBytes && !(isFirst && text.length > 0 && !this.mayBegin(text)))
      return Buffer.alloc(0);
    return this.release();
  }

  /** @returns the lines of the document, or the text unchanged if it is not one */
  finish(): Buffer {
    if (this.held === null) return Buffer.alloc(0);
    const text = this.release();
    const lines = this.document.linesOf(text.toString('utf8'));
    this.isOne = lines !== null;
    return lines === null ? text : Buffer.from(`${lines.join('\n')}\n`);
  }

  private mayBegin(text: Buffer): boolean {
    return mayBegin(text) || this.document.mayBegin?.(text.subarray(0, HEAD_BYTES).toString('utf8')) === true;
  }

  private release(): Buffer {
    const text = Buffer.concat(this.held ?? []);
    this.held = null;
    return text;
  }
}

const HEAD_BYTES = 64 * 1024;

/** An element, or an object or list that does not end on its line while others follow. */
function mayBegin(head: Buffer): boolean {
  const [line = '', next] = head.subarray(0, HEAD_BYTES).toString('utf8').replace(/^\s+/, '').split(/\n\s*/, 2);
  if (line.startsWith('<')) return true;
  if (!/^[[{]/.test(line)) return false;
  if (next === undefined || next === '') return true;
  try {
    JSON.parse(line);
    return false;
  } catch {
    return true;
  }
}
