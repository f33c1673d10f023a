/**
 * A session's frames into a tree for stacking: judged as for a report, planned, and put there.
 */
import type { Night } from './model/index.js';
import { noteSorted } from './record/index.js';
import {
  planNight,
  sortNight,
  type LinkKind,
  type NightPlan,
  type SortedNight,
  type SortOptions,
} from './sorting/index.js';

export { MANIFEST_NAME, planNight, type LinkKind, type NightPlan, type SortedNight } from './sorting/index.js';

/** Default methods: the one that takes no space and outlives the original's name first. */
export const ANY_WAY: readonly LinkKind[] = ['hard', 'symbolic', 'copy'];

export interface SortSession extends Omit<SortOptions, 'onProgress'> {
  /** Absolute path of the archive to record it in. */
  readonly archive?: string;
  readonly onProgress?: (done: number, total: number) => void;
}

/** The plans of nights, in their order. */
export function plansOf(nights: readonly Night[]): NightPlan[] {
  return nights.map(planNight);
}

/** Carries plans out, one night after another. @throws the file system's own error */
export async function sortNights(plans: readonly NightPlan[], options: SortSession): Promise<SortedNight[]> {
  const total = plans.reduce((sum, { placements }) => sum + placements.length, 0);
  const sorted: SortedNight[] = [];
  let before = 0;
  for (const plan of plans) {
    sorted.push(
      await sortNight(plan, { ...options, onProgress: (done) => options.onProgress?.(before + done, total) }),
    );
    before += plan.placements.length;
  }
  if (options.archive !== undefined)
    await noteSorted(
      options.archive,
      sorted.map(({ manifest }) => ({
        night: manifest.night,
        session: manifest.session,
        into: options.tree,
        at: manifest.at,
        complete: manifest.complete,
        files: manifest.files.length,
      })),
    );
  return sorted;
}
