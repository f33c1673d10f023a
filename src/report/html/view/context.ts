import { clockOf, type Clock, type Night } from '../../../model/index.js';
import { paletteOf, type Palette } from '../../design/filters.js';
import { worthOf, type NightWorth } from '../../figures/worth.js';

/** What every section's builder is given: the night, and how to name, time and colour things in it. */
export interface ViewContext {
  readonly night: Night;
  readonly clock: Clock;
  readonly utc: Clock;
  readonly palette: Palette;
  readonly worth: NightWorth;
  /** Times count from the night's first exposure, and have no zone. */
  readonly isShared: boolean;
}

/**
 * The context of one night.
 *
 * @param displayZone IANA zone for the times shown; the site's own when absent, UTC when no site is known
 */
export function viewContext(night: Night, displayZone?: string, isShared = false): ViewContext {
  return {
    night,
    clock: clockOf(isShared ? 'UTC' : (displayZone ?? night.gathered.site?.timezone ?? 'UTC')),
    utc: clockOf('UTC'),
    palette: paletteOf(night),
    worth: worthOf(night),
    isShared,
  };
}
