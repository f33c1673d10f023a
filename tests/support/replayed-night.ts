/** Invented nights with their replay and their findings, as the pipeline joins them. */
import { findAll } from '../../src/findings/index.js';
import type { Night } from '../../src/model/index.js';
import { replayNight } from '../../src/replay/index.js';
import { worthyNight } from './worthy-night.js';

const nights = new Map<string, Night>();

/** One of the named nights, weighed, replayed and asked every finding; built once. */
export function replayedNight(name: string): Night {
  const known = nights.get(name);
  if (known) return known;
  const weighed = worthyNight(name);
  const played: Night = { ...weighed, replay: replayNight(weighed) };
  const night: Night = { ...played, findings: findAll(played) };
  nights.set(name, night);
  return night;
}
