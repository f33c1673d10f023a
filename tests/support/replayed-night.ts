/** Invented nights with their replay and their findings, as the pipeline joins them. */
import { findAll } from '../../src/findings/index.js';
import type { Night } from '../../src/model/index.js';
import { replayNight } from '../../src/replay/index.js';
import { keeper } from './kept.js';
import { worthyNight } from './worthy-night.js';

/** One of the named nights, weighed, replayed and asked every finding; made once. */
export const replayedNight = keeper('replayed', (name): Night => {
  const weighed = worthyNight(name);
  const played: Night = { ...weighed, replay: replayNight(weighed) };
  return { ...played, findings: findAll(played) };
});
