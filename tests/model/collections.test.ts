import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import {
  countOf,
  extended,
  groupBy,
  groupByAll,
  increment,
  isDated,
  isDatedLight,
  itemAt,
  partition,
  sortedBy,
  sumOfKnown,
  atKey,
} from '../../src/model/index.js';

describe('collections', () => {
  it('are parted in two, each in order', () => {
    expect(partition([5, 2, 3, 8], (n) => n % 2 === 0)).toEqual([
      [2, 8],
      [5, 3],
    ]);
  });

  it('are grouped in the order in which each group is met', () => {
    const groups = groupBy(['ab', 'ac', 'b', 'ad', 'bc', ''], (text) => text[0]);
    expect([...groups]).toEqual([
      ['a', ['ab', 'ac', 'ad']],
      ['b', ['b', 'bc']],
      [undefined, ['']],
    ]);
  });

  it('are grouped by several values, as by one text made of them all', () => {
    const items = [...'abcabacbbca'].map((letter, i) => ({ letter, row: i % 2 === 0 ? i % 3 : undefined, i }));
    expect(groupByAll(items, ({ letter, row }) => [letter, row])).toEqual([
      ...groupBy(items, ({ letter, row }) => JSON.stringify([letter, row])).values(),
    ]);
    expect(groupByAll([1, 2], () => [])).toEqual([[1, 2]]);
    expect(groupByAll([], (x) => [x])).toEqual([]);
  });

  it('are put in order, equals as they come, and are themselves where they are in order', () => {
    const own = (text: string) => text.length;
    const inOrder = ['a', 'b', 'cc', 'dd'];
    expect(sortedBy(inOrder, own)).toBe(inOrder);
    const mixed = ['cc', 'a', 'dd', 'b'];
    expect(sortedBy(mixed, own)).toEqual(['a', 'b', 'cc', 'dd']);
    expect(mixed[0]).toBe('cc');
  });

  it('count what they have not met as 0', () => {
    const counts = new Map<string, number>();
    expect([increment(counts, 'a'), increment(counts, 'a'), increment(counts, 'b', 5)]).toEqual([1, 2, 5]);
    expect([countOf(counts, 'b'), countOf(counts, 'c')]).toEqual([5, 0]);
  });

  it('throw where an item or a key is missing, rather than give a default', () => {
    expect(itemAt(Float64Array.of(4, 0), 1)).toBe(0);
    expect(() => itemAt([1, 2], 2)).toThrow('no item 2 among 2');
    expect(atKey(new Map([['a', 0]]), 'a')).toBe(0);
    expect(() => atKey(new Map([['a', 0]]), 'b')).toThrow('the key b has no value');
  });

  it('add up what is known', () => {
    expect(sumOfKnown([1, null, 2, undefined])).toBe(3);
    expect(sumOfKnown([null])).toBe(0);
  });
});

describe('a header', () => {
  const file = { file: 'a.fits', sizeBytes: 2880, headerHash: 'a' };
  const exposure = { startMs: 0, endMs: 300_000 };

  it('is dated or not, and a dated light or not', () => {
    const headers = [
      { ...file, kind: 'light', exposure },
      { ...file, kind: 'light' },
      { ...file, kind: 'dark', exposure },
    ] as const;
    expect(headers.map((header) => isDated(header))).toEqual([true, false, true]);
    // The length is read without a default: a dated header has its span by its type.
    expect(headers.filter((header) => isDatedLight(header)).map((light) => light.exposure.endMs)).toEqual([300_000]);
  });
});

describe('a copy with more to it', () => {
  it('has the keys in their order, the later value of each', () => {
    const copy = extended({ a: 1, b: 2 }, { a: 3, c: 4 });
    expect(Object.entries(copy)).toEqual([
      ['a', 3],
      ['b', 2],
      ['c', 4],
    ]);
  });

  it('is of one hidden class with all others that are made so', () => {
    setFlagsFromString('--allow-natives-syntax');
    const isAlike = runInNewContext('(a, b) => %HaveSameMap(a, b)') as (a: object, b: object) => boolean;
    const copies = Array.from({ length: 100 }, (_, i) => extended({ id: i, name: 'frame' }, { train: 'wren' }));
    const unlike = copies.filter((copy) => !isAlike(copy, copies[50] ?? {}));
    setFlagsFromString('--no-allow-natives-syntax');
    expect(unlike).toEqual([]);
  });
});
