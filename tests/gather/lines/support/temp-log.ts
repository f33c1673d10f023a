import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Writes one log into a folder of its own, hands the folder over, and removes it afterwards. */
export async function withLog<T>(
  content: string | Uint8Array,
  use: (rootDir: string, name: string) => Promise<T>,
  name = 'night.log',
): Promise<T> {
  const rootDir = mkdtempSync(join(tmpdir(), 'nightledger-log-'));
  try {
    writeFileSync(join(rootDir, name), content);
    return await use(rootDir, name);
  } finally {
    rmSync(rootDir, { recursive: true, force: true });
  }
}

/** The text in UTF-16, with or without a byte-order mark. */
export function utf16(text: string, order: 'le' | 'be', mark: boolean): Buffer {
  const bytes = Buffer.from((mark ? '\ufeff' : '') + text, 'utf16le');
  return order === 'le' ? bytes : bytes.swap16();
}
