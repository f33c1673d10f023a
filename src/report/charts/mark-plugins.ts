import type { Plugin } from 'chart.js';
import { drawBackdrop, drawLabels, drawVerticals } from './annotations.js';
import { drawBarPatterns } from './bar-patterns.js';
import type { Mark } from './marks.js';
import { drawDitherTicks, drawMoonLine } from './night-marks.js';
import { drawWhiskers } from './whiskers.js';

/** Hands a mark to what draws it. */
export function pluginOf(mark: Mark): Plugin {
  switch (mark.mark) {
    case 'backdrop':
      return drawBackdrop(mark);
    case 'bar-patterns':
      return drawBarPatterns(mark);
    case 'direct-labels':
      return drawLabels(mark);
    case 'dither-ticks':
      return drawDitherTicks(mark);
    case 'moon-line':
      return drawMoonLine(mark);
    case 'verticals':
      return drawVerticals(mark);
    case 'whiskers':
      return drawWhiskers(mark);
  }
}
