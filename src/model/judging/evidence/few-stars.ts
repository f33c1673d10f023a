/** Trains whose frames hold too few stars all night: the pixels cannot judge them, and a kept frame proves nothing. */
import { counted, type Rules } from '../../../vocabulary/index.js';
import { groupBy, ownValue } from '../../collections.js';
import type { Frame } from '../../frame.js';
import type { NightStars } from '../../stars.js';
import { median } from '../../statistics.js';
import type { Warning } from '../../warning.js';

interface MeasuredNight {
  readonly gathered: { readonly rules: Rules };
  readonly timeline: { readonly frames: readonly Frame[] };
  readonly stars: Pick<NightStars, 'frames'> | null;
}

/** One notice for each train with fewer stars than the rules want, even in its best frames. */
export function fewStarsNotices({ gathered: { rules }, timeline, stars }: MeasuredNight): Warning[] {
  if (stars === null) return [];
  const lights = timeline.frames.filter(({ kind }) => kind === 'light');
  return [...groupBy(lights, ({ train }) => train)].flatMap(([train, own]): Warning[] => {
    const measured = own.flatMap(({ id }) => ownValue(stars.frames, id) ?? []);
    if (measured.length < rules.minimumGroupFrames) return [];
    const counts = measured.map(({ count }) => count).sort((a, b) => b - a);
    // Under cloud the best frames still show what there is to see.
    const best = counts.slice(0, Math.max(1, Math.round(counts.length / 3)));
    if (median(best) >= rules.minimumStars) return [];
    const inStrips = measured.some(({ by }) => by === 'strips');
    return [
      {
        code: 'few-stars',
        message:
          `${train}’s frames hold ${counted(median(counts), 'star')} in the median; with fewer than ` +
          `${rules.minimumStars} (minimumStars) the pixels do not judge: cloud, trails and defocus may have gone ` +
          'unseen, and a kept frame only means that nothing else speaks against it. ' +
          (inStrips ? 'Measure whole frames: --stars full.' : 'Look at them before stacking.'),
        count: measured.length,
      },
    ];
  });
}
