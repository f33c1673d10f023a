import { itemAt } from '../../model/collections.js';
import { isUtf8 } from 'node:buffer';

/**
 * The encoding implied by the first bytes of a text: a `TextDecoder` label, and the length of a byte-order mark to
 * skip.
 */
export interface DetectedEncoding {
  readonly label: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
  readonly skip: number;
}

/**
 * Distinguishes UTF-8, UTF-16 and single-byte text by byte-order mark, else by the positions of zero bytes, else by
 * whether the bytes are valid UTF-8.
 *
 * @param head the first bytes of the text, some kilobytes if available
 */
export function detectEncoding(head: Uint8Array): DetectedEncoding {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { label: 'utf-8', skip: 3 };
  if (head[0] === 0xff && head[1] === 0xfe) return { label: 'utf-16le', skip: 2 };
  if (head[0] === 0xfe && head[1] === 0xff) return { label: 'utf-16be', skip: 2 };

  let evenZeros = 0;
  let oddZeros = 0;
  // Most texts have none, which is seen in a fiftieth of the time.
  for (let i = head.indexOf(0); i >= 0 && i < head.length; i++) {
    if (head[i] === 0) i % 2 === 0 ? evenZeros++ : oddZeros++;
  }
  // Western text in UTF-16 has a zero in nearly every pair, always on the same side; padding has them on both.
  const pairs = head.length >> 1;
  if (oddZeros > pairs * 0.6 && evenZeros < pairs * 0.05) return { label: 'utf-16le', skip: 0 };
  if (evenZeros > pairs * 0.6 && oddZeros < pairs * 0.05) return { label: 'utf-16be', skip: 0 };

  return { label: isUtf8(withoutCutCharacter(head)) ? 'utf-8' : 'windows-1252', skip: 0 };
}

/** The bytes without a multi-byte character that the end cuts in two. */
function withoutCutCharacter(head: Uint8Array): Uint8Array {
  let end = head.length;
  for (let back = 1; back <= 3 && back <= head.length; back++) {
    const byte = itemAt(head, head.length - back);
    if ((byte & 0xc0) === 0x80) continue;
    if (byte >= 0xc0) end = head.length - back;
    break;
  }
  return head.subarray(0, end);
}

/** A function that turns successive chunks in the named encoding into UTF-8; call it without a chunk at the end. */
export type Transcoder = (chunk?: Uint8Array) => Buffer;

/**
 * Makes a transcoder.
 *
 * @param label any label of the WHATWG Encoding Standard
 * @throws RangeError for an unknown label
 */
export function transcoder(label: string): Transcoder {
  const decoder = new TextDecoder(label, { ignoreBOM: true });
  return (chunk) =>
    Buffer.from(chunk === undefined ? decoder.decode() : decoder.decode(chunk, { stream: true }), 'utf8');
}

/** Whether the label names an encoding that can be read. */
export function knownEncoding(label: string): boolean {
  try {
    return new TextDecoder(label).encoding !== '';
  } catch {
    return false;
  }
}
