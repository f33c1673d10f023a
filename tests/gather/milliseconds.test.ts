import { describe, expect, it } from 'vitest';
import { unexplainedWarnings, withSeconds } from '../../src/gather/milliseconds.js';
import type { FrameKind, HeaderFrame, Warning } from '../../src/model/index.js';

const DUSK_MS = Date.UTC(2026, 0, 16, 20);

/** Frames whose headers state `stated` without a unit, begun `gap` seconds apart. */
function frames(stated: number, gap: number, count = 12, more: Partial<HeaderFrame> = {}): HeaderFrame[] {
  return Array.from({ length: count }, (_, i) => {
    const startMs = DUSK_MS + i * gap * 1000;
    const file = `${more.telescope ?? 'heron'}/${stated}-${i}.fits`;
    // Beyond four hours the reader leaves the length out, and what it was beside it.
    const isRead = stated <= 14_400;
    return {
      file,
      sizeBytes: 5760,
      headerHash: file,
      kind: 'light',
      telescope: 'heron',
      exposure: { startMs, endMs: startMs + (isRead ? stated * 1000 : 0) },
      ...(isRead ? { exposureSeconds: stated } : { unlikelySeconds: stated }),
      ...more,
    } as HeaderFrame;
  });
}
const lengths = (all: readonly HeaderFrame[]) => [...new Set(withSeconds(all).frames.map((f) => f.exposureSeconds))];

describe('exposure times without a unit', () => {
  it('are milliseconds where as seconds one camera would have many shutters open at once', () => {
    expect(lengths(frames(300_000, 304))).toEqual([300]);
    expect(lengths(frames(10_000, 12))).toEqual([10]);
    expect(lengths(frames(500, 2.5))).toEqual([0.5]);
    const { frames: mended, warnings } = withSeconds(frames(10_000, 12));
    expect(mended[1]).toMatchObject({ exposure: { startMs: DUSK_MS + 12_000, endMs: DUSK_MS + 22_000 } });
    expect(warnings).toMatchObject([{ code: 'milliseconds', count: 12, source: { file: 'heron/10000-0.fits' } }]);
  });

  it('are decided for all frames of that camera, and for no other camera', () => {
    const dark = frames(10_000, 12, 2, { kind: 'dark' as FrameKind });
    const other = frames(300, 305, 12, { telescope: 'wren' });
    expect(lengths([...frames(10_000, 12), ...dark])).toEqual([10]);
    expect(withSeconds([...frames(10_000, 12), ...other]).frames.slice(12)).toEqual(other);
  });

  it('stay seconds: of two or more cameras that nothing tells apart, of copies, of long subs, of sums of stacks', () => {
    for (const all of [
      [...frames(300, 305), ...frames(300, 307), ...frames(240, 301)],
      [...frames(300, 305), ...frames(300, 305)],
      frames(3600, 3610),
      frames(36_000, 86_400, 5),
      frames(10_000, 12, 2),
    ])
      expect(withSeconds(all)).toEqual({ frames: all, warnings: [] });
  });

  it('that are milliseconds are no longer said to be impossible', () => {
    const said: Warning[] = [
      { code: 'absurd-value', message: '', source: { file: 'a', card: 'EXPOSURE' }, count: 12 },
      { code: 'missing-exposure-time', message: '', source: { file: 'a', card: 'EXPTIME' }, count: 12 },
      { code: 'absurd-value', message: '', source: { file: 'a', card: 'CCD-TEMP' } },
    ];
    expect(unexplainedWarnings(said, withSeconds(frames(300_000, 304)).warnings)).toEqual(said.slice(2));
    expect(unexplainedWarnings(said, [])).toEqual(said);
  });
});
