import { describe, expect, it } from 'vitest';
import { SHARES, Shares } from '../../scripts/bundle/shares.mjs';

const FILES = [
  'page/pages',
  'hostile/crowds',
  'record/read',
  'stars/night',
  'plan/plan',
  'files/slug',
  'new/folder',
  'files/lock',
].map((name) => `/somewhere/tests/${name}.test.mjs`);
const named = (file: string): string => file.replace(/^.*\/tests\/(.*)\.test\.mjs$/, '$1');
/** The share of tests that wait for programs. */
const WAITING = SHARES - 1;

/** What each is given, in the order of giving, where processes with these shares ask in this order. */
function givenTo(...asking: readonly number[]): (readonly [asked: number, file: string])[] {
  const shares = new Shares();
  shares.shareOut(FILES);
  const given: [number, string][] = [];
  asking.forEach((share, i) => {
    shares.take(share, (file) => given.push([i, named(file)]));
  });
  return given;
}

const filesFor = (...asking: readonly number[]): string[] => givenTo(...asking).map(([, file]) => file);

describe('files of tests for several processes', () => {
  it('come in their order to the share that runs what they run, those of other folders to the second', () => {
    expect(filesFor(0, 0, 0, 1, 1, 1, WAITING, WAITING)).toEqual([
      ...['page/pages', 'record/read', 'plan/plan'],
      ...['stars/night', 'files/slug', 'new/folder'],
      ...['hostile/crowds', 'files/lock'],
    ]);
  });

  it('are taken from the end of the longest share by a process that has nothing left', () => {
    expect(filesFor(0, 0, 0, 0, 1, 0)).toEqual([
      ...['page/pages', 'record/read', 'plan/plan'],
      ...['new/folder', 'stars/night', 'files/lock'],
    ]);
  });

  it('leave the process that waits for programs at rest, until it alone can take the last', () => {
    expect(givenTo(WAITING, WAITING, WAITING, 0, 0, 0, 1, 1)).toEqual([
      ...[
        [0, 'hostile/crowds'],
        [1, 'files/lock'],
      ],
      ...[
        [3, 'page/pages'],
        [4, 'record/read'],
        [5, 'plan/plan'],
        [6, 'stars/night'],
        [7, 'files/slug'],
      ],
      [2, 'new/folder'],
    ]);
  });

  it.each([
    ...Array.from({ length: SHARES }, (_, share) => [FILES.map(() => share)]),
    [FILES.map((_, i) => i % SHARES)],
    [FILES.map((_, i) => SHARES - 1 - (i % SHARES))],
  ])('are each given once, whoever asks: %j', (asking) => {
    expect(filesFor(...asking).toSorted()).toEqual(FILES.map(named).toSorted());
    expect(
      givenTo(...asking)
        .map(([asked]) => asked)
        .toSorted(),
    ).toEqual(FILES.map((_, i) => i));
    expect(filesFor(...asking, 0, 1)).toHaveLength(FILES.length);
  });
});
