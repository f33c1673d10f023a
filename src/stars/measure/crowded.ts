/** Which stars are too close to others to be measured as isolated. */
import type { FoundStar } from './found-star.js';

/** Stars with overlapping apertures, unless the other is too faint to matter. */
export function markCrowded(stars: readonly FoundStar[], radius: number): void {
  const order = [...stars].sort((a, b) => a.y - b.y);
  const reach = radius * 1.3;
  order.forEach((star, index) => {
    for (let next = index + 1; next < order.length; next++) {
      const other = order[next];
      if (other === undefined || other.y - star.y > reach) break;
      if ((other.x - star.x) ** 2 + (other.y - star.y) ** 2 > reach * reach) continue;
      if (!(other.flux < 0.03 * star.flux)) star.crowded = true;
      if (!(star.flux < 0.03 * other.flux)) other.crowded = true;
    }
  });
}
