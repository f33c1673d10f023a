import { describe, expect, it } from 'vitest';
import { keepLists } from '../../../src/report/formats/keep-lists.js';
import { frontFrames } from '../../../src/report/html/view/front-frames.js';
import type { Cause, CauseKind, JudgedFrame } from '../../../src/model/index.js';
import { light } from '../../support/events.js';

const causeOf = (kind: CauseKind): Cause => ({
  kind,
  span: light('heron', '21:00:00', 300).exposure,
  overlapMs: 300_000,
  certainty: 'measured',
  verdict: 'doubtful',
  by: 'sky',
  evidence: 'as invented',
  sources: [],
});

function judged(more: Partial<JudgedFrame>): JudgedFrame {
  return {
    ...light('heron', '21:00:00', 300),
    target: 'NGC 281',
    filter: 'Ha',
    verdict: 'kept',
    causes: [],
    cleared: [],
    sky: null,
    guiding: null,
    ...more,
  };
}

const nightOf = (lights: readonly JudgedFrame[]) =>
  ({ accounts: { lights } }) as unknown as Parameters<typeof keepLists>[0];

describe('lists of frames', () => {
  it('are three a group, one name a line, without exposures that have no file', () => {
    const { lists } = keepLists(
      nightOf([
        judged({ file: 'frames/a 1.fits' }),
        judged({ file: 'frames/b.fits' }),
        judged({ file: 'frames/c.fits', verdict: 'lost' }),
        judged({ file: undefined, verdict: 'lost' }),
      ]),
    );
    expect(lists).toEqual([
      { path: 'frames/NGC-281_Ha_heron.kept.txt', text: 'frames/a 1.fits\nframes/b.fits\n' },
      { path: 'frames/NGC-281_Ha_heron.doubtful.txt', text: '' },
      { path: 'frames/NGC-281_Ha_heron.lost.txt', text: 'frames/c.fits\n' },
    ]);
  });

  it('never share a name, and name no file whose name is more than a line', () => {
    const { lists, unlisted } = keepLists(
      nightOf([
        judged({ target: 'M 33', file: 'a.fits' }),
        judged({ target: 'm 33', file: 'b.fits' }),
        judged({ target: undefined, filter: undefined, file: 'two\nlines.fits' }),
      ]),
    );
    expect(new Set(lists.map(({ path }) => path.toLowerCase())).size).toBe(9);
    expect(unlisted).toBe(1);
    expect(lists.some(({ text }) => text.includes('two'))).toBe(false);
    expect(lists.map(({ path }) => path)).toContain('frames/no-target_no-filter_heron.kept.txt');
  });
});

describe('which frames', () => {
  it('are divided by what to do with their files', () => {
    const lights = [
      ...Array.from({ length: 223 }, () => judged({ file: 'k.fits' })),
      ...Array.from({ length: 2 }, () => judged({ file: 'd.fits', verdict: 'doubtful' })),
      ...Array.from({ length: 3 }, () => judged({ file: 'l.fits', verdict: 'lost' })),
      ...Array.from({ length: 2 }, () => judged({ file: undefined, verdict: 'lost', aborted: true })),
      judged({ file: undefined }),
    ];
    expect(frontFrames(nightOf(lights))?.text).toBe(
      '223 frames to stack, 2 to look at, 3 to reject, 2 never saved and 1 missing on disk',
    );
    expect(frontFrames(nightOf([judged({ file: 'k.fits' })]))?.text).toBe('1 frame to stack');
    const looked = nightOf([1, 2].map((i) => judged({ id: `d${i}`, file: `d${i}.fits`, verdict: 'doubtful' })));
    const strips = (...ids: string[]) => ({ pictures: { strips: ids.map((frame) => ({ frame })) } });
    const text = (...ids: string[]) => frontFrames({ ...looked, ...strips(...ids) })?.text;
    expect(text('d1', 'd2')).toBe('0 frames to stack and 2 to look at (with pictures of their stars)');
    expect(text('d1')).toBe('0 frames to stack and 2 to look at (1 with star pictures)');
    expect(frontFrames(nightOf([]))).toBeNull();
  });

  it('come with the reason for which most of them are to be looked at', () => {
    const doubtful = (kind: CauseKind, count: number) =>
      Array.from({ length: count }, (_, i) =>
        judged({ id: `${kind}${i}`, file: `${kind}${i}.fits`, verdict: 'doubtful', causes: [causeOf(kind)] }),
      );
    const text = (...lights: JudgedFrame[]) => frontFrames(nightOf(lights))?.text;
    expect(text(...doubtful('low', 3))).toBe('0 frames to stack and 3 to look at (target low)');
    expect(text(...doubtful('low', 2), ...doubtful('dimmed', 1))).toContain('3 to look at (mostly target low)');
    expect(text(...doubtful('low', 1), ...doubtful('dimmed', 1))).toContain('2 to look at');
    expect(text(...doubtful('low', 1), ...doubtful('dimmed', 1))).not.toContain('(');
  });
});
