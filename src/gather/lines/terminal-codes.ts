const ESCAPE = 0x1b;
const BELL = 0x07;
const LF = 0x0a;
const CONTROL_SEQUENCE = 0x5b;
const COMMAND = 0x5d;

/**
 * Text without what terminals take for colours, styles and titles (ECMA-48 control sequences): a program whose output
 * was kept as a file leaves them in its lines. The same bytes where there are none; line feeds stay.
 */
export function withoutTerminalCodes(bytes: Buffer): Buffer {
  let from = bytes.indexOf(ESCAPE);
  if (from === -1) return bytes;
  const text = Buffer.allocUnsafe(bytes.length);
  let kept = bytes.copy(text, 0, 0, from);
  while (from !== -1) {
    const end = endOfCode(bytes, from);
    const next = bytes.indexOf(ESCAPE, end);
    kept += bytes.copy(text, kept, end, next === -1 ? bytes.length : next);
    from = next;
  }
  return text.subarray(0, kept);
}

/** Where the text goes on behind the code that begins here. */
function endOfCode(bytes: Buffer, start: number): number {
  let at = start + 2;
  switch (bytes[start + 1]) {
    case CONTROL_SEQUENCE:
      while (isBetween(bytes[at], 0x20, 0x3f)) at++;
      return isBetween(bytes[at], 0x40, 0x7e) ? at + 1 : at;
    case COMMAND:
      while (at < bytes.length && bytes[at] !== BELL && bytes[at] !== ESCAPE && bytes[at] !== LF) at++;
      return bytes[at] === BELL ? at + 1 : at;
    default:
      // `ESC ( B` names a character set, `ESC =` a mode.
      return start + (isBetween(bytes[start + 1], 0x28, 0x2f) ? 3 : isBetween(bytes[start + 1], 0x30, 0x7e) ? 2 : 1);
  }
}

function isBetween(byte: number | undefined, low: number, high: number): boolean {
  return byte !== undefined && byte >= low && byte <= high;
}
