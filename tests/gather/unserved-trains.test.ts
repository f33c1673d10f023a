import { describe, expect, it } from 'vitest';
import { unservedWarnings } from '../../src/gather/unserved-trains.js';
import type { HeaderFrame } from '../../src/model/index.js';

type Trains = Parameters<typeof unservedWarnings>[0];
const trains = [
  { id: 'heron', frames: ['heron/*.fits'], match: {} },
  { id: 'wren', frames: ['wrenn/*.fits'], match: {} },
] as unknown as Trains;
const frame = (file: string): HeaderFrame => ({ file }) as HeaderFrame;
const heron = { ...frame('heron/1.fits'), train: 'heron' };

describe('trains that no frame belongs to', () => {
  it('are named with the files that nothing names: a slip in a glob', () => {
    const paths = ['heron/1.fits', 'wren/1.fits', 'wren/2.fits'];
    const [only, ...more] = unservedWarnings(trains, { paths, read: [heron], placed: [heron] });
    expect(more).toEqual([]);
    expect(only?.code).toBe('train-without-frames');
    expect(only?.message).toContain(
      'no frame matches wrenn/*.fits (wren), while 2 FITS files (wren/1.fits, …) are no train’s',
    );
  });

  it('may have rested where there is no other file', () => {
    const files = { paths: ['heron/1.fits'], read: [heron], placed: [heron] };
    expect(unservedWarnings(trains, files)).toMatchObject([{ code: 'frames-not-found', train: 'wren' }]);
    expect(unservedWarnings(trains.slice(0, 1), files)).toEqual([]);
  });

  it('are none where all have frames; files that no glob names are counted', () => {
    const paths = ['heron/1.fits', 'old/1.fits'];
    expect(unservedWarnings(trains.slice(0, 1), { paths, read: [heron], placed: [heron] })).toMatchObject([
      {
        code: 'frame-files-unread',
        message: expect.stringContaining('1 FITS file (old/1.fits) is named by no frames:'),
      },
    ]);
  });
});
