import { altitude } from './altitude.js';
import type { Chart } from './chart.js';
import { ditherCounts } from './dither-counts.js';
import { ditherWaits } from './dither-waits.js';
import { effective } from './effective.js';
import { fieldRotation } from './field-rotation.js';
import { flexure } from './flexure.js';
import { focus } from './focus.js';
import { guiding } from './guiding.js';
import { guidingStrip } from './guiding-strip.js';
import { integration } from './integration.js';
import { moonlight } from './moonlight.js';
import { replayGains } from './replay-gains.js';
import { separation } from './separation.js';
import { starBackground } from './star-background.js';
import { starCount } from './star-count.js';
import { starElongation } from './star-elongation.js';
import { starFlux } from './star-flux.js';
import { starWidth } from './star-width.js';
import { starSize } from './star-size.js';

/** Every chart of the report. */
export const CHARTS = [
  integration,
  effective,
  ditherWaits,
  altitude,
  separation,
  moonlight,
  guiding,
  guidingStrip,
  starWidth,
  starElongation,
  starFlux,
  starCount,
  starBackground,
  starSize,
  focus,
  flexure,
  fieldRotation,
  replayGains,
  ditherCounts,
] as const satisfies readonly Chart[];
