/** The fast path: the previous frame had nearly the same registration, so only a shift is to be found. */
import type { Similarity } from '../../model/index.js';
import { matrixOf } from './similarity.js';
import { brightest, type StarList } from './star-list.js';

/** Dithers and drift between two frames, px along each axis. */
const WINDOW_PX = 80;
/** Differences that count as the same shift, px. */
const SAME_PX = 2;
const STARS = 60;
/** Number of hypotheses worth a vote. */
const MOST_IDEAS = 3;

/**
 * Hypotheses for the similarity from a list to the reference near a guess: the shifts supported by most pairs of bright
 * stars, best first.
 */
export function ideasFromGuess(reference: StarList, list: StarList, guess: Similarity): readonly Similarity[] {
  const few = brightest(list, STARS);
  const m = matrixOf(guess);
  const dx: number[] = [];
  const dy: number[] = [];
  for (let i = 0; i < few.count; i++) {
    const x = m.a * few.x[i]! + m.b * few.y[i]! + m.x0;
    const y = m.c * few.x[i]! + m.d * few.y[i]! + m.y0;
    for (let k = 0; k < Math.min(reference.count, STARS); k++) {
      const u = reference.x[k]! - x;
      const v = reference.y[k]! - y;
      if (Math.abs(u) > WINDOW_PX || Math.abs(v) > WINDOW_PX) continue;
      dx.push(u);
      dy.push(v);
    }
  }
  const counts = dx.map((u, i) => {
    let agree = 0;
    for (let k = 0; k < dx.length; k++) {
      if (Math.abs(dx[k]! - u) <= SAME_PX && Math.abs(dy[k]! - dy[i]!) <= SAME_PX) agree++;
    }
    return agree;
  });
  const order = counts.map((_, i) => i).sort((a, b) => counts[b]! - counts[a]! || a - b);
  const chosen: number[] = [];
  for (const i of order) {
    if (counts[i]! < 3 || chosen.length === MOST_IDEAS) break;
    const isNew = chosen.every((k) => Math.hypot(dx[k]! - dx[i]!, dy[k]! - dy[i]!) > 2 * SAME_PX);
    if (isNew) chosen.push(i);
  }
  return chosen.map((i) => ({ ...guess, x: guess.x + dx[i]!, y: guess.y + dy[i]! }));
}
