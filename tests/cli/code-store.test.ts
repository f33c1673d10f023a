/** Compiled code is run as it is: what is read back must be this user's own, and whole. */
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import { type CodeByFile, StoredCode, store } from '../../src/cli/code-store.js';

const folder = mkdtempSync(join(tmpdir(), 'nightledger-code-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
afterEach(() => void vi.restoreAllMocks());

const CODE = new Map([['main.js', { stamp: '1 2 3', code: Buffer.from('compiled') }]]);
let files = 0;

/** A table as the store has it: its length and its CRC-32 stand in front of it, least significant byte first. */
function withFront(table: string): Buffer {
  const front = Buffer.alloc(8);
  front.writeUInt32LE(Buffer.byteLength(table), 0);
  front.writeUInt32LE(crc32(table), 4);
  return Buffer.concat([front, Buffer.from(table)]);
}

function readStored(file: string): CodeByFile {
  const code = new StoredCode(file);
  const all = code.all();
  code.close();
  return all;
}

function stored(): string {
  const file = join(folder, `engine-${files++}`, 'report.code');
  store(file, CODE);
  return file;
}

describe('stored code', () => {
  it('is read as it was stored, and by nobody else', () => {
    const file = stored();
    expect(readStored(file)).toEqual(CODE);
    expect(readdirSync(join(file, '..'))).toEqual(['report.code']);
    if (process.platform === 'win32') return;
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(statSync(join(file, '..')).mode & 0o777).toBe(0o700);
  });

  it('is that of a source file as it was when it was compiled', () => {
    const code = new StoredCode(stored());
    expect(code.of('main.js', '1 2 3')).toEqual(Buffer.from('compiled'));
    expect(code.of('main.js', '1 2 4')).toBeUndefined();
    expect(code.of('other.js', '1 2 3')).toBeUndefined();
    code.close();
  });

  it('counts as none where there is none, or a folder, or no whole file', () => {
    expect(readStored(join(folder, 'absent.code'))).toEqual(new Map());
    expect(readStored(folder)).toEqual(new Map());
    const damaged = join(folder, 'damaged.code');
    const bytes = readFileSync(stored());
    for (let at = 0; at < bytes.length; at++) {
      const changed = Buffer.from(bytes);
      changed.writeUInt8(bytes.readUInt8(at) ^ 1, at);
      writeFileSync(damaged, changed, { mode: 0o600 });
      expect(readStored(damaged)).toEqual(new Map());
    }
    for (const content of [
      bytes.subarray(0, bytes.length - 3),
      Buffer.alloc(0),
      Buffer.alloc(4096),
      withFront('{}'),
      withFront('['),
    ]) {
      writeFileSync(damaged, content, { mode: 0o600 });
      expect(readStored(damaged)).toEqual(new Map());
    }
  });

  it('loses entries that are none', () => {
    const file = join(folder, 'odd.code');
    const code = Buffer.from('compiled');
    const place = { stamp: '1 2 3', at: 0, length: code.length, sum: crc32(code) };
    const rows = [
      ['main.js', place],
      ['a.js', 'text'],
      [3, place],
      ['b.js', null],
      ['c.js', { ...place, at: 1 }],
      ['d.js', { ...place, at: -1 }],
      ['e.js', { ...place, length: 1e300 }],
      'main.js',
    ];
    writeFileSync(file, Buffer.concat([withFront(JSON.stringify(rows)), code]), { mode: 0o600 });
    expect(readStored(file)).toEqual(CODE);
  });

  it.skipIf(process.platform === 'win32')('counts as none where others may write it', () => {
    for (const mode of [0o620, 0o602, 0o666]) {
      const file = stored();
      chmodSync(file, mode);
      expect(readStored(file)).toEqual(new Map());
    }
  });

  it.skipIf(process.platform === 'win32')('counts as none where another user wrote it', () => {
    const file = stored();
    vi.spyOn(process, 'geteuid').mockReturnValue(statSync(file).uid + 1);
    expect(readStored(file)).toEqual(new Map());
  });

  it.skipIf(process.platform === 'win32')('is not read through a link', () => {
    const link = join(folder, 'link.code');
    symlinkSync(stored(), link);
    expect(readStored(link)).toEqual(new Map());
  });

  it('is given up in silence where the folder cannot be made', () => {
    const file = join(folder, 'a-file');
    writeFileSync(file, '');
    expect(() => store(join(file, 'engine', 'report.code'), CODE)).not.toThrow();
  });

  it('of versions that nobody has run for months goes when another begins; other folders stay', () => {
    const code = join(folder, 'code');
    for (const [name, at] of [
      ['0.1.0-11.3.244.8-node.38-x64', 0],
      ['0.1.1-11.3.244.8-node.38-x64', Date.now() / 1000],
      ['holiday', 0],
    ] as const) {
      mkdirSync(join(code, name), { recursive: true });
      utimesSync(join(code, name), at, at);
    }
    store(join(code, '0.2.0-12.4.254.21-node.33-x64', 'report.code'), CODE);
    expect(readdirSync(code)).toEqual(['0.1.1-11.3.244.8-node.38-x64', '0.2.0-12.4.254.21-node.33-x64', 'holiday']);
  });
});
