/** What the gallery shows: the report of every invented night, and of every sample session. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { nightPages, type NightPages } from '../../src/report/index.js';
import { COUNTED_NAMES, namedNight, NIGHT_NAMES } from './nights.js';

export { impressionOf, withBrowser } from '../../src/report/pdf/index.js';

/** The sample whose frames have stars in them; the others’ hold headers and a few pixels. */
const STARRY = 'star-night';

export interface Exhibit {
  readonly name: string;
  readonly html: string;
  readonly pages: NightPages;
}

/** Renders the reports whose names are asked for; all when none is named. */
export async function exhibits(root: string, names: readonly string[]): Promise<Exhibit[]> {
  const shown: Exhibit[] = [];
  const wanted = (name: string): boolean => names.length === 0 || names.includes(name);
  const show = async (name: string, night: Night, share = false): Promise<void> => {
    const pages = await nightPages(night, {
      nowMs: Date.parse('2026-10-20T08:00:00Z'),
      version: '0.0.0',
      share,
      forPaper: true,
    });
    shown.push({ name, pages, html: pages.page });
  };
  for (const name of NIGHT_NAMES) if (wanted(name)) await show(name, namedNight(name));
  for (const name of names) if (COUNTED_NAMES.includes(name)) await show(name, namedNight(name));
  if (wanted('shared')) await show('shared', namedNight('twin-night'), true);
  const samples = join(root, 'sample-sessions');
  for (const session of readdirSync(samples, { withFileTypes: true })) {
    const name = `sample-${session.name}`;
    if (!session.isDirectory() || !wanted(name)) continue;
    const nights = await readNights(join(samples, session.name), {
      nowMs: Date.parse('2026-12-31T12:00:00Z'),
      ...(session.name === STARRY ? { stars: { by: 'full', threads: 0, pictures: true } } : {}),
    });
    for (const night of nights) await show(nights.length === 1 ? name : `${name}-${night.date}`, night);
  }
  return shown;
}
