const ESCAPE = 0x1b;
const BELL = 0x07;
const LF = 0x0a;
const CONTROL_SEQUENCE = 0x5b;
const COMMAND = 0x5d;

/**
 * Text without terminal control sequences for colours, styles and titles (ECMA-48): a program whose output was
 * redirected to a file leaves them in its lines. The same bytes if there are none; line feeds stay.
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

/** Where the text continues after the sequence that begins here. */
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
