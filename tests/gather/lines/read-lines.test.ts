import { createHash } from 'node:crypto';
import { appendFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LogFile } from '../../../src/gather/lines/log-read.js';
import { blockText, lineEnd, lineStart, MAX_LINE_BYTES, readLines } from '../../../src/gather/lines/read-lines.js';
import { WarningTally } from '../../../src/gather/lines/warning-tally.js';
import { utf16, withLog } from './support/temp-log.js';
import { runs } from '../../support/runs.js';
import { anyText } from '../../support/any-text.js';

interface Lines extends LogFile {
  readonly texts: string[];
  readonly numbers: number[];
  readonly codes: string[];
  readonly largestBlock: number;
  readonly openEnded: boolean;
}

async function lines(rootDir: string, name: string, encoding = 'auto', onFirst?: () => void): Promise<Lines> {
  const tally = new WarningTally(name);
  const texts: string[] = [];
  const numbers: number[] = [];
  let largestBlock = 0;
  let openEnded = false;
  const file = await readLines(rootDir, name, encoding, tally, (block) => {
    onFirst?.();
    onFirst = undefined;
    largestBlock = Math.max(largestBlock, block.bytes.length);
    openEnded = block.openEnded;
    for (let i = 0; i < block.count; i++) {
      texts.push(blockText(block, lineStart(block, i), lineEnd(block, i)));
      numbers.push(block.firstLine + i);
    }
  });
  return { ...file, texts, numbers, codes: tally.list().map((warning) => warning.code), largestBlock, openEnded };
}

const read = (content: string | Uint8Array, encoding?: string): Promise<Lines> =>
  withLog(content, (root, name) => lines(root, name, encoding));

describe('reading a log as lines', () => {
  it('gives every line with its number, whatever the lengths', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          anyText({ maxLength: 40 }).map((text) => text.replace(/[\r\n\0\ufeff]|\p{Cc}/gu, ' ')),
          { minLength: 1 },
        ),
        async (texts) => {
          const result = await read(`${texts.join('\n')}\n`);
          expect(result.texts).toEqual(texts.map((text) => Buffer.from(text).toString()));
          expect(result.numbers).toEqual(texts.map((_, i) => i + 1));
        },
      ),
      runs(60),
    );
  });

  it('keeps lines whole that straddle two reads', async () => {
    const texts = Array.from({ length: 9000 }, (_, i) => `${i} ${'x'.repeat(i % 700)} é`);
    const result = await read(texts.join('\n'));
    expect(result.texts).toEqual(texts);
    expect(result.lines).toBe(9000);
  });

  it.each(['le', 'be'] as const)('reads UTF-16 %s with and without a byte-order mark', async (order) => {
    const text = 'Kuppel geöffnet\nweiter\n';
    for (const mark of [true, false]) {
      expect((await read(utf16(text, order, mark))).texts).toEqual(['Kuppel geöffnet', 'weiter']);
    }
  });

  it('drops the byte-order mark of UTF-8', async () => {
    expect((await read('\ufefffirst\nsecond\n')).texts).toEqual(['first', 'second']);
  });

  it('believes a byte-order mark more than the dialect, and says so', async () => {
    const result = await read(utf16('a\nb\n', 'le', true), 'windows-1252');
    expect(result.texts).toEqual(['a', 'b']);
    expect(result.codes).toEqual(['other-encoding']);
  });

  it('reads a line that is not UTF-8 as windows-1252 and leaves the others alone', async () => {
    const result = await read(
      Buffer.concat([Buffer.from('10 °C\n'), Buffer.from('11 °C\n', 'latin1'), Buffer.from('12 °C\n')]),
    );
    expect(result.texts).toEqual(['10 °C', '11 °C', '12 °C']);
    expect(result.codes).toEqual(['not-utf-8']);
  });

  it('reads a named single-byte encoding without a warning', async () => {
    const result = await read(Buffer.from('Fokus ±3 °C\n', 'latin1'), 'iso-8859-1');
    expect(result.texts).toEqual(['Fokus ±3 °C']);
    expect(result.codes).toEqual([]);
  });

  it('takes CRLF and bare CR as line endings', async () => {
    expect((await read('a\r\nb\r\n\r\nc')).texts).toEqual(['a', 'b', '', 'c']);
    expect((await read('a\rb\rc')).texts).toEqual(['a', 'b', 'c']);
  });

  it('counts lines that hold something', async () => {
    expect((await read('a\n\n\r\nb\n')).lines).toBe(2);
    expect((await read('')).lines).toBe(0);
  });

  it('drops zero bytes and says on which lines', async () => {
    const result = await read('before\n\0\0\0\0after\n\0\0\0');
    expect(result.texts).toEqual(['before', 'after', '']);
    expect(result.codes).toEqual(['zero-bytes', 'zero-bytes']);
  });

  it('takes the colours of a terminal off', async () => {
    const { texts } = await read('\u001b[1;32mINFO\u001b[0m a [b]\u001b[m\n\u001b]0;title\u0007c\u001b(B\nd\u001b\n');
    expect(texts).toEqual(['INFO a [b]', 'c', 'd']);
  });

  it('leaves out a line of 10 MB in bounded memory and keeps its neighbours', async () => {
    const result = await read(`before\n${'x'.repeat(10 * 2 ** 20)}\nafter\n`);
    expect(result.texts).toEqual(['before', '', 'after']);
    expect(result.codes).toEqual(['long-line']);
    expect(result.largestBlock).toBeLessThan(2 * MAX_LINE_BYTES);
  });

  it('draws the line at the same length however the reads fall', async () => {
    for (const length of [MAX_LINE_BYTES - 1, MAX_LINE_BYTES]) {
      for (const lead of [0, 5, 100_000, 262_000]) {
        const result = await read(`${'l'.repeat(lead)}\n${'x'.repeat(length)}\nafter\n`);
        expect(result.texts[1]?.length).toBe(length < MAX_LINE_BYTES ? length : 0);
        expect(result.texts[2]).toBe('after');
      }
    }
  });

  it('survives an endless last line', async () => {
    const result = await read(`before\n${'x'.repeat(3 * 2 ** 20)}`);
    expect(result.texts).toEqual(['before', '']);
    expect(result.codes).toEqual(['long-line']);
  });

  it('unpacks gzip whatever the name, and several members in a row', async () => {
    const packed = Buffer.concat([gzipSync('a\nb\n'), gzipSync('c\n')]);
    const result = await read(packed);
    expect(result.texts).toEqual(['a', 'b', 'c']);
    expect(result.sizeBytes).toBe(packed.length);
    expect(result.sha256).toBe(createHash('sha256').update(packed).digest('hex'));
  });

  it('keeps what comes out of a broken gzip file', async () => {
    const text = Array.from({ length: 200_000 }, (_, i) => `line ${i * 7919}`).join('\n');
    const packed = gzipSync(text);
    const cut = packed.subarray(0, packed.length - 2000);
    const result = await read(cut);
    expect(result.texts.length).toBeGreaterThan(100);
    expect(result.texts[0]).toBe('line 0');
    expect(result.codes).toEqual(['broken-gzip']);
    expect(result.sha256).toBe(createHash('sha256').update(cut).digest('hex'));
  });

  it('reads a growing file up to the size it had at opening', async () => {
    const text = 'line\n'.repeat(200_000);
    await withLog(text, async (root, name) => {
      const result = await lines(root, name, 'auto', () => appendFileSync(join(root, name), 'late\n'.repeat(100_000)));
      expect(result.sizeBytes).toBe(text.length);
      expect(result.texts.length).toBe(200_000);
      expect(result.sha256).toBe(createHash('sha256').update(text).digest('hex'));
    });
  });

  it('tells a last line without an end', async () => {
    expect((await read('a\nb')).openEnded).toBe(true);
    expect((await read('a\nb\n')).openEnded).toBe(false);
  });

  it('holds no more than a few blocks of a long log', async () => {
    const result = await read('0123456789 some words of a log line\n'.repeat(400_000));
    expect(result.lines).toBe(400_000);
    expect(result.largestBlock).toBeLessThan(2 * MAX_LINE_BYTES);
  });

  it('answers a missing file and a folder with a warning', async () => {
    const rootDir = mkdtempSync(join(tmpdir(), 'nightledger-log-'));
    try {
      expect((await lines(rootDir, 'missing.log')).codes).toEqual(['unreadable-file']);
      expect((await lines(rootDir, '.')).codes).toEqual(['unreadable-file']);
    } finally {
      rmSync(rootDir, { recursive: true });
    }
  });

  it('never throws, whatever the bytes', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uint8Array({ maxLength: 3000 }),
        fc.constantFrom('auto', 'utf-8', 'utf-16le', 'windows-1252'),
        async (bytes, encoding) => {
          const result = await read(bytes, encoding);
          expect(result.sizeBytes).toBe(bytes.length);
          expect(result.texts.length).toBeGreaterThanOrEqual(result.lines);
        },
      ),
      runs(150),
    );
  });
});
