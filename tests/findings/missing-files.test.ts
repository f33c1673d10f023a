import { describe, expect, it } from 'vitest';
import { missingFiles } from '../../src/findings/missing-files.js';
import { ask, found, lights, nightOf } from './support.js';
import { altered } from '../support/altered.js';

const night = (
  isMissing: (i: number) => boolean,
  more: { saved?: boolean | ((i: number) => boolean); aborted?: boolean } = {},
) =>
  nightOf({
    frames: lights('heron', {
      from: 0,
      seconds: 300,
      count: 10,
      more: (i) =>
        isMissing(i)
          ? {
              provenance: 'log-only',
              file: undefined,
              header: undefined,
              ...((typeof more.saved === 'function' ? more.saved(i) : more.saved) === false
                ? { savedMs: undefined }
                : {}),
              ...(more.aborted ? { aborted: true } : {}),
            }
          : {},
    }),
  });

describe('frames missing from disk', () => {
  it('are found with what the log says of them', () => {
    const [finding] = found(
      missingFiles,
      night((i) => i === 3 || i === 7),
    );
    expect(finding).toMatchObject({
      title: '2 frames of heron are in the log but not on disk',
      frames: 2,
      costMs: 600_000,
    });
    expect(finding?.evidence[0]).toContain('the log says that all were saved');
    expect(
      found(
        missingFiles,
        night((i) => i === 3, { saved: false }),
      )[0]?.evidence[0],
    ).toContain('does not say that they were saved');
  });

  it('are counted in whole sentences where the log says of some that they were saved', () => {
    const some = (saved: readonly number[]) =>
      found(
        missingFiles,
        night((i) => i < 4, { saved: (i) => saved.includes(i) }),
      )[0]?.evidence[0];
    expect(some([1])).toMatch(/the log says that 1 was saved$/);
    expect(some([1, 2])).toMatch(/the log says that 2 were saved$/);
  });

  it('points to the globs where none is there', () => {
    expect(
      found(
        missingFiles,
        night(() => true),
      )[0]?.advice,
    ).toContain('globs in the rig file');
  });

  it('are not found where every file is there, nor for aborted exposures', () => {
    expect(
      found(
        missingFiles,
        night(() => false),
      ),
    ).toEqual([]);
    expect(
      found(
        missingFiles,
        night((i) => i === 3, { aborted: true }),
      ),
    ).toEqual([]);
  });

  it('are not assessed from headers alone', () => {
    expect(
      ask(
        missingFiles,
        altered(
          night(() => false),
          { timeline: { headersOnly: true } },
        ),
      ),
    ).toEqual({ notAssessed: 'an event log' });
  });
});
