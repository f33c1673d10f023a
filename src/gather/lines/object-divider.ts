const LF = 0x0a;
const CR = 0x0d;
const BLANK = 0x20;
const QUOTE = 0x22;
const COMMA = 0x2c;
const BACKSLASH = 0x5c;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;
const OPEN_OBJECT = 0x7b;
const CLOSE_OBJECT = 0x7d;

/** Lists in lists deeper than this are no document of records. */
const MAX_DEPTH = 64;
/** Objects among the first bytes, and objects a line, from which on a document is one of records that share lines. */
const MIN_OBJECTS = 8;
const OBJECTS_PER_LINE = 4;

/**
 * Puts every object in the lists of a JSON document on its own line, whatever the document's line breaks, by replacing
 * the commas between them with line feeds and the line feeds inside them with blanks. Bytes are changed in place.
 */
export class ObjectDivider {
  private lists = 0;
  private readonly open: number[] = [];
  private inString = false;
  private isEscaped = false;

  /** @param level depth of the lists: 1 for those of an outermost list */
  constructor(private readonly level: number) {}

  /** Divides the next chunk of a document in UTF-8. */
  divide(chunk: Buffer): Buffer {
    for (let i = 0; i < chunk.length; i++) {
      const byte = chunk[i];
      if (byte === undefined) break;
      if (this.inString) this.stringByte(byte);
      else chunk[i] = this.byte(byte);
    }
    return chunk;
  }

  private stringByte(byte: number): void {
    if (this.isEscaped) this.isEscaped = false;
    else if (byte === BACKSLASH) this.isEscaped = true;
    else if (byte === QUOTE) this.inString = false;
  }

  /** @returns the replacement byte */
  private byte(byte: number): number {
    switch (byte) {
      case QUOTE:
        this.inString = true;
        return byte;
      case OPEN_LIST:
        this.lists++;
        if (this.open.length < MAX_DEPTH) this.open.push(byte);
        return this.isBetween() ? LF : byte;
      case OPEN_OBJECT:
        if (this.open.length < MAX_DEPTH) this.open.push(byte);
        return byte;
      case CLOSE_LIST: {
        const between = this.isBetween();
        this.open.pop();
        this.lists = Math.max(0, this.lists - 1);
        return between ? LF : byte;
      }
      case CLOSE_OBJECT:
        this.open.pop();
        return byte;
      case COMMA:
        return this.isBetween() ? LF : byte;
      case LF:
      case CR:
        return this.open.length > 0 && !this.isBetween() ? BLANK : byte;
      default:
        return byte;
    }
  }

  /** Whether the last thing opened is a list of records. */
  private isBetween(): boolean {
    return this.lists === this.level && this.open[this.open.length - 1] === OPEN_LIST;
  }
}

/**
 * Depth of the lists of a JSON document whose records share lines; 0 if the text is not such a document.
 *
 * @param head the beginning of the text, UTF-8
 */
export function levelOfObjects(head: Buffer): number {
  const first = head.find((byte) => byte > BLANK);
  if (first !== OPEN_LIST && first !== OPEN_OBJECT) return 0;
  const objects = new Map<number, number>();
  const open: number[] = [];
  // Single objects, and the fraction of them that contain lists of objects.
  let alone = 0;
  let withLists = 0;
  let holdsObjects = false;
  let lists = 0;
  let lines = 1;
  let inString = false;
  for (let i = 0; i < head.length; i++) {
    const byte = head[i];
    if (inString) {
      if (byte === BACKSLASH) i++;
      else if (byte === QUOTE) inString = false;
    } else if (byte === QUOTE) inString = true;
    else if (byte === LF) lines++;
    else if (byte === OPEN_LIST) {
      lists++;
      open.push(byte);
    } else if (byte === OPEN_OBJECT) {
      const known = objects.get(lists);
      if (open[open.length - 1] === OPEN_LIST) {
        objects.set(lists, known === undefined ? 1 : known + 1);
        holdsObjects = true;
      }
      open.push(byte);
    } else if (byte === CLOSE_LIST || byte === CLOSE_OBJECT) {
      if (open.pop() === OPEN_LIST) lists--;
      if (open.length === 0 && byte === CLOSE_OBJECT) {
        alone++;
        if (holdsObjects) withLists++;
        holdsObjects = false;
      }
    }
    if (open.length > MAX_DEPTH) return 0;
  }
  // Records a line each, some of which hold lists of samples.
  if (alone >= MIN_OBJECTS && withLists < 0.5 * alone) return 0;
  const [level = 0] = [...objects].find(([, count]) => count >= Math.max(MIN_OBJECTS, OBJECTS_PER_LINE * lines)) ?? [];
  return level;
}
