import { describe, expect, it } from 'vitest';
import { Halves } from '../../scripts/bundle/halves.mjs';

const FILES = [
  'page/pages',
  'hostile/crowds',
  'record/read',
  'stars/night',
  'plan/plan',
  'files/slug',
  'new/folder',
].map((name) => `/somewhere/tests/${name}.test.mjs`);
const named = (file: string | undefined): string | undefined => file?.replace(/^.*\/tests\/(.*)\.test\.mjs$/, '$1');

/** What is taken where the halves ask in this order. */
function takenBy(...asking: readonly (0 | 1)[]): (string | undefined)[] {
  const halves = new Halves();
  halves.shareOut(FILES);
  return asking.map((half) => named(halves.take(half)));
}

describe('files of tests for two processes', () => {
  it('come in their order to the half that runs what they run, those of other folders to the second', () => {
    expect(takenBy(0, 0, 0, 1, 1, 1, 1)).toEqual([
      ...['page/pages', 'record/read', 'plan/plan'],
      ...['hostile/crowds', 'stars/night', 'files/slug', 'new/folder'],
    ]);
  });

  it('are taken from the end of the other half by the one that has nothing left', () => {
    expect(takenBy(0, 0, 0, 0, 1, 0)).toEqual([
      ...['page/pages', 'record/read', 'plan/plan'],
      ...['new/folder', 'hostile/crowds', 'files/slug'],
    ]);
  });

  it.each([[[0, 0, 0, 0, 0, 0, 0]], [[1, 1, 1, 1, 1, 1, 1]], [[0, 1, 0, 1, 0, 1, 0]]] as const)(
    'are each taken once, whoever asks: %j',
    (asking) => {
      expect(takenBy(...asking).toSorted()).toEqual(FILES.map(named).toSorted());
      expect(takenBy(...asking, 0, 1).slice(-2)).toEqual([undefined, undefined]);
    },
  );
});
