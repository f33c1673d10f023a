import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import wabt from 'wabt';
import { foldAscii } from '../../../src/gather/dialects/pattern/literals.js';
import { LiteralSearch } from '../../../src/gather/dialects/pattern/literal-search.js';
import { BlockSplitter } from '../../../src/gather/lines/block-splitter.js';
import { indexLines, type LineIndex, measureLines } from '../../../src/gather/lines/line-index.js';
import { giveBack, takeTextMemory, type TextMemory } from '../../../src/gather/lines/text-memory.js';
import { TEXT_SCAN } from '../../../src/gather/lines/text-scan-code.js';
import { WarningTally } from '../../../src/gather/lines/warning-tally.js';
import { runs } from '../../support/runs.js';

const memory = takeTextMemory();

/** The memory with a text, and behind it what was there before. */
function holding(text: Uint8Array): TextMemory {
  if (memory === null) throw new Error('this machine has no vectors for WebAssembly');
  memory.text.fill('\n\0é opens', 0, text.length + 64);
  memory.text.set(text);
  return memory;
}

describe('the module that looks through a text', () => {
  it('is the one that its own text describes', async () => {
    const tools = await wabt();
    const text = readFileSync(new URL('../../../src/gather/lines/text-scan.wat', import.meta.url), 'utf8');
    const module = tools.parseWat('text-scan.wat', text, { simd: true });
    expect(Buffer.from(module.toBinary({}).buffer).toString('base64')).toBe(TEXT_SCAN);
  });

  it('finds the ends of lines and measures them as the loops in JavaScript do', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(0x0a, 0x0a, 0x0b, 0x0d, 0x8a, 0x41, 0x61, 0x20, 0x00, 0xff, 0x1b), { maxLength: 90 }),
        (values) => {
          const bytes = Uint8Array.from(values);
          const index: LineIndex = { ends: new Int32Array(1), count: 0 };
          indexLines(bytes, index);
          const own = holding(bytes);
          expect([...own.ends.subarray(0, own.lines(bytes.length))]).toEqual([...index.ends.subarray(0, index.count)]);
          expect(own.measure).toEqual({
            ...measureLines(bytes, index),
            isAscii: values.every((value) => value < 0x80),
            hasZero: values.includes(0),
            hasEscape: values.includes(0x1b),
          });
        },
      ),
      runs(1000),
    );
  });

  it('finds what a plain search for each literal finds', () => {
    const literal = fc
      .string({ unit: fc.constantFrom('a', 'b', 'k', ' ', 'é', '.', 'z'), minLength: 1, maxLength: 8 })
      .filter((text) => Buffer.byteLength(text) >= 2);
    const unit = fc.constantFrom('a', 'A', 'b', 'B', 'k', 'K', ' ', 'é', '.', 'z', 'Z', '[', '@', '\n');
    fc.assert(
      fc.property(
        fc.uniqueArray(literal, { minLength: 1, maxLength: 20 }),
        fc.string({ unit, maxLength: 120 }),
        (literals, haystack) => {
          const bytes = Buffer.from(haystack);
          const own = holding(bytes);
          const block = { ends: own.ends, count: 0, firstLine: 1, ascii: false, openEnded: false };
          const search = new LiteralSearch(literals);
          const hits = search.in({ ...block, bytes: own.text.subarray(0, bytes.length), memory: own });
          expect(hits.positions).toBe(own.positions);
          const positions = [...hits.positions.subarray(0, hits.count)];
          expect(positions).toEqual(positions.toSorted((a, b) => a - b));
          const folded = Buffer.from(foldAscii(haystack));
          literals.forEach((one, id) => {
            const starts: number[] = [];
            for (let at = folded.indexOf(one); at !== -1; at = folded.indexOf(one, at + 1)) starts.push(at);
            const found = positions.filter((_, i) => hits.ids[i] === id);
            // Each within its occurrence, by the same number of bytes.
            const by = (found[0] ?? 0) - (starts[0] ?? 0);
            expect(found).toEqual(starts.map((start) => start + by));
            expect(by >= 0 && by < Buffer.byteLength(one)).toBe(true);
          });
        },
      ),
      runs(1000),
    );
  });

  it('leaves more finds than there is room for to the loop in JavaScript', () => {
    const text = Buffer.alloc(200_000, 'ab');
    const own = holding(text);
    const block = { ends: own.ends, count: 0, firstLine: 1, ascii: true, openEnded: false };
    expect(
      new LiteralSearch(['ab']).in({ ...block, bytes: own.text.subarray(0, text.length), memory: own }).count,
    ).toBe(100_000);
  });
});

describe('blocks of lines in such a memory', () => {
  const taken: (TextMemory | null)[] = [];
  afterEach(() => taken.splice(0).forEach(giveBack));

  function linesOf(chunks: readonly Buffer[], own: TextMemory | null) {
    const lines: string[] = [];
    const tally = new WarningTally('a.log');
    const splitter = new BlockSplitter(
      tally,
      ({ bytes, ends, count, firstLine, ascii }) => {
        for (let i = 0; i < count; i++)
          lines.push(`${firstLine + i}:${ascii}:${bytes.toString('latin1', i === 0 ? 0 : ends[i - 1]! + 1, ends[i]!)}`);
      },
      own,
    );
    for (const chunk of chunks) {
      // As a file is read: right behind what is there, where it can be.
      const { room } = splitter;
      const length = room === undefined ? 0 : chunk.copy(room);
      splitter.push(room === undefined || length < chunk.length ? chunk : room.subarray(0, length));
    }
    splitter.finish();
    return { lines, warnings: tally.list(), withText: splitter.linesWithText, other: splitter.sawOtherThanUtf8 };
  }

  it('are the same as in an ordinary one, zero bytes and other encodings among them', () => {
    const chunk = fc.string({
      unit: fc.constantFrom('a', 'bc', '\n', '\r\n', '\0', 'é', '€', '\u001b[1m'),
      maxLength: 40,
    });
    const own = takeTextMemory();
    taken.push(own);
    fc.assert(
      fc.property(
        fc.array(chunk, { maxLength: 6 }),
        fc.constantFrom('utf8' as const, 'latin1' as const),
        (texts, as) => {
          const chunks = texts.map((text) => Buffer.from(text, as));
          expect(linesOf(chunks, own)).toEqual(linesOf(chunks, null));
        },
      ),
      runs(500),
    );
  });

  it('leave a line that is too long out, and more than there is room for to an ordinary one', () => {
    const own = takeTextMemory();
    taken.push(own);
    const chunks = [
      Buffer.alloc(1_200_000, 'x'),
      Buffer.from('\nshort\n'),
      Buffer.alloc(3_000_000, `${'y'.repeat(999)}\n`),
    ];
    expect(linesOf(chunks, own)).toEqual(linesOf(chunks, null));
  });
});
