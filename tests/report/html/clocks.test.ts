import { describe, expect, it } from 'vitest';
import { type ClockNote, type Night, KEEPS_TO_NONE, NO_WITNESS } from '../../../src/model/index.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { clockNotices } from '../../../src/report/html/view/clock-notices.js';
import { notesView } from '../../../src/report/html/view/notes.js';
import { clockDifference } from '../../../src/vocabulary/index.js';
import { altered } from '../../support/altered.js';
import { namedNight } from '../../support/nights.js';

const note = (more: Partial<ClockNote> = {}): ClockNote => ({
  train: 'wren',
  source: 'headers',
  against: 'the log of heron',
  aheadMs: 886_000,
  uncertaintyMs: 800,
  by: '40 dithers',
  corrected: true,
  isKnown: true,
  isAbsolute: false,
  ...more,
});

describe('how far a clock is off', () => {
  it.each([
    [0, '0 s'],
    [30, '0.03 s'],
    [-7_400, '7.4 s'],
    [59_940, '59.9 s'],
    [59_960, '1 min 00 s'],
    [886_000, '14 min 46 s'],
    [-10_803_000, '3 h 00 min 03 s'],
  ])('%i ms reads %s', (ms, text) => expect(clockDifference(ms)).toBe(text));

  it('is said on the first screen in minutes and seconds', () => {
    const clock = viewContext(namedNight('two-hours')).clock;
    expect(clockNotices([note()], clock)[0]).toContain('are 14 min 46 s ahead of the log of heron');
    const open = note({ isKnown: false, corrected: false, second: { aheadMs: -3_600_000, share: 0.2 } });
    expect(clockNotices([open], clock)[0]).toContain(
      '14 min 46 s ahead fits best, 1 h 00 min 00 s behind is not excluded',
    );
  });

  it('is as large a matter as it is: seconds are no matter of twilight, minutes are', () => {
    const clock = viewContext(namedNight('two-hours')).clock;
    const noticeOf = (more: Partial<ClockNote>) => clockNotices([note(more)], clock).join();
    expect(noticeOf({})).toContain(
      'all times on this page, and what follows from them (twilight, altitudes), may be off by up to 14 min 46 s',
    );
    const small = noticeOf({ aheadMs: -3000 });
    expect(small).toContain('times of day on this page may be off by up to 3.0 s');
    expect(small).not.toContain('all times');
    // In a minute the sky turns by 360° / 1436: nothing rises by more.
    expect(noticeOf({ aheadMs: 60_000 })).toContain('all times');
    const open = { isKnown: false, corrected: false, aheadMs: 3000, second: { aheadMs: 0, share: 0.3 } };
    expect(noticeOf(open)).toContain('they may be off by 3.0 s, and so may its dither waits');
    expect(noticeOf(open)).toMatch(/^Either the clock of wren is 3\.0 s ahead, or wren starts 3\.0 s later/);
    expect(noticeOf(open)).toContain('clockOffset: 3.0 under wren in the rig file; if the clocks agree, write 0');
    expect(noticeOf({ ...open, aheadMs: -3000 })).toContain('or the other train starts 3.0 s later');
    expect(noticeOf({ ...open, aheadMs: 40_000 })).toContain('(40.0 under wren takes the first)');
    expect(noticeOf({ ...open, by: KEEPS_TO_NONE })).toContain('follows none of the dithers by the log of heron');
    const byThemselves = ['wren', 'owl'].map((train) => note({ ...open, train, aheadMs: 0, by: KEEPS_TO_NONE }));
    const [both, ...others] = clockNotices(byThemselves, clock);
    expect(others).toEqual([]);
    expect(both).toMatch(/^wren and owl follow none of the dithers .* On a mount of their own nothing needs doing/);
    expect(both).not.toContain('do not show');
    expect(clockNotices(byThemselves, clock, () => ({ are: 'unseen' }))[0]).toContain(
      'which the stars of their frames do not show',
    );
    expect(clockNotices(byThemselves, clock, () => ({ are: 'seen', frames: 6 }))[0]).toContain(
      'as 12 frames with trailed, doubled or swollen stars may show',
    );
    expect(noticeOf({ ...open, second: { aheadMs: -1_800_000, share: 0.3 } })).toContain('whose exposure is uncertain');
    expect(noticeOf({ ...open, by: NO_WITNESS })).toContain('whose exposure is uncertain');
  });

  it('stands in the notes, and not where it is not known', () => {
    const cellsOf = (night: Night) =>
      notesView(viewContext(night))
        .clocks?.rows[0]?.cells.slice(3, 5)
        .map(({ text }) => text);
    const withClock = (clock: ClockNote) => altered(namedNight('two-hours'), { timeline: { clocks: [clock] } });
    expect(cellsOf(withClock(note({ aheadMs: -886_000 })))).toEqual(['−14 min 46 s', '0.80 s']);
    expect(cellsOf(withClock(note({ isKnown: false, corrected: false })))).toEqual(['—', '—']);
  });
});
