/** Rice decoding of differences of integers (RICE_1; FITS Standard 4.0, section 10.4.1). */

/** Width of one code parameter, its largest value, and bits of one number, by bytes per number. */
const CODES = {
  1: { parameterBits: 3, raw: 6, numberBits: 8 },
  2: { parameterBits: 4, raw: 14, numberBits: 16 },
  4: { parameterBits: 5, raw: 25, numberBits: 32 },
} as const;

export type RiceBytes = keyof typeof CODES;

/**
 * Decodes one tile.
 *
 * @param out receives `out.length` numbers, signed for 2 and 4 bytes, unsigned for 1
 * @param blockSize numbers that share one code parameter
 * @returns false when the bytes end before the numbers do
 */
export function decodeRice(bytes: Uint8Array, bytesPerNumber: RiceBytes, blockSize: number, out: Int32Array): boolean {
  const { parameterBits, raw, numberBits } = CODES[bytesPerNumber];
  const wrap = 32 - numberBits;
  const unsigned = bytesPerNumber === 1;
  const end = bytes.length;
  if (end < bytesPerNumber + 1) return out.length === 0;

  let last = 0;
  let at = 0;
  for (; at < bytesPerNumber; at++) last = (last << 8) | (bytes[at] as number);
  let buffer = bytes[at++] as number;
  let held = 8;

  for (let i = 0; i < out.length; ) {
    held -= parameterBits;
    while (held < 0) {
      if (at >= end) return false;
      buffer = (buffer << 8) | (bytes[at++] as number);
      held += 8;
    }
    const parameter = (buffer >>> held) - 1;
    buffer &= (1 << held) - 1;
    const stop = Math.min(i + blockSize, out.length);

    if (parameter < 0) {
      const value = unsigned ? last & 0xff : (last << wrap) >> wrap;
      out.fill(value, i, stop);
      i = stop;
      continue;
    }
    for (; i < stop; i++) {
      let code: number;
      if (parameter === raw) {
        let shift = numberBits - held;
        code = shift < 32 ? buffer << shift : 0;
        for (shift -= 8; shift >= 0; shift -= 8) {
          if (at >= end) return false;
          code |= (bytes[at++] as number) << shift;
        }
        if (held > 0) {
          if (at >= end) return false;
          buffer = bytes[at++] as number;
          code |= buffer >>> -shift;
          buffer &= (1 << held) - 1;
        } else buffer = 0;
      } else {
        while (buffer === 0) {
          if (at >= end) return false;
          held += 8;
          buffer = bytes[at++] as number;
        }
        const zeros = held - (32 - Math.clz32(buffer));
        held -= zeros + 1;
        buffer ^= 1 << held;
        held -= parameter;
        while (held < 0) {
          if (at >= end) return false;
          buffer = (buffer << 8) | (bytes[at++] as number);
          held += 8;
        }
        code = (zeros << parameter) | (buffer >>> held);
        buffer &= (1 << held) - 1;
      }
      last = (last + ((code & 1) === 0 ? code >>> 1 : ~(code >>> 1))) | 0;
      out[i] = unsigned ? last & 0xff : (last << wrap) >> wrap;
    }
  }
  return true;
}
