import { clockOf, type Clock, type Night } from '../../../model/index.js';
import { paletteOf, type Palette } from '../../design/filters.js';
import type { Earlier } from '../../figures/goals.js';
import { worthOf, type NightWorth } from '../../figures/worth.js';

/** The input of every section's builder: the night, and how to name, time and colour things in it. */
export interface ViewContext {
  readonly night: Night;
  readonly clock: Clock;
  readonly utc: Clock;
  readonly palette: Palette;
  readonly worth: NightWorth;
  /** Times count from the night's first exposure, and have no zone. */
  readonly isShared: boolean;
  /** UTC next to local time: requested, or the clocks change in the night. */
  readonly showsUtc: boolean;
  /** Charts are drawn for paper as well: the full edition will be printed. */
  readonly forPaper: boolean;
  /** What the night's archive says. */
  readonly earlier?: Earlier;
}

export interface ContextOptions {
  readonly forPaper?: boolean;
  readonly share?: boolean;
  /** Show UTC beside local time. */
  readonly utc?: boolean;
  readonly earlier?: Earlier;
}

/** The context of one night. Its only clock is the site's, also in findings and warnings. UTC when no site is known. */
export function viewContext(
  night: Night,
  { share = false, utc = false, forPaper = false, earlier }: ContextOptions = {},
): ViewContext {
  const clock = clockOf(share ? 'UTC' : (night.gathered.site?.timezone ?? 'UTC'));
  const [before, after] = [clock.offset(night.sky.window.startMs), clock.offset(night.sky.window.endMs)];
  return {
    night,
    clock,
    utc: clockOf('UTC'),
    palette: paletteOf(night, earlier?.goals),
    worth: worthOf(night),
    isShared: share,
    forPaper,
    showsUtc: before !== after || (utc && before !== 'UTC'),
    ...(earlier === undefined ? {} : { earlier }),
  };
}
