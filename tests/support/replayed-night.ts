/** Invented nights with their replay and their findings, as the pipeline joins them. */
import { findAll } from '../../src/findings/index.js';
import type { Night } from '../../src/model/index.js';
import { replayNight } from '../../src/replay/index.js';
import { fewReplays } from './few-replays.js';
import { keeper } from './kept.js';
import { inFull } from './runs.js';
import { worthyNight } from './worthy-night.js';

/** One of the named nights, weighed, replayed and asked every finding; made once. */
export const replayedNight = keeper('replayed', (name): Night => {
  const weighed = worthyNight(name);
  const played: Night = { ...weighed, replay: inFull(replayNight, replayedSoon)(weighed) };
  return { ...played, findings: findAll(played) };
});

/** Of few runs: how true their figures are is asked of other nights (tests/replay/accuracy.test.ts). */
function replayedSoon(night: Night): Night['replay'] {
  const asUsual = fewReplays(4);
  try {
    return replayNight(night);
  } finally {
    asUsual();
  }
}
