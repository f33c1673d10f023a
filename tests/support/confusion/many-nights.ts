/** The larger run behind docs/verdicts.md: `node scripts/confusion.mjs`. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seeded } from '../generator/random.js';
import { drawNight } from './drawn-night.js';
import { measureNight } from './measured-night.js';
import { compare, type Compared, confusionOf, confusionText } from './table.js';

const FRAMES = 16;
/** What the logs and the guiding can know of. */
const LOGGED = new Set(['rest', 'gap', 'jump', 'short jump']);

/** Draws, measures and judges nights. @returns tables as Markdown */
export async function manyNights(nights: number, seed: number): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-confusion-'));
  const byPixels: Compared[] = [];
  const byGuiding: Compared[] = [];
  const byDuration: Compared[] = [];
  const bad: Compared[] = [];
  try {
    for (let night = 0; night < nights; night++) {
      const random = seeded(seed + night);
      const kind = night % 10 === 9 ? 'wide' : night % 10 === 8 ? 'trailed' : undefined;
      const filters = night % 4 === 0 ? ['Ha', 'OIII', 'SII'] : ['L'];
      const drawn = drawNight(random, { frames: FRAMES, bad: kind, filters });
      const judged = compare(drawn, await measureNight(random, drawn.lights, folder));
      (kind === undefined ? byPixels : bad).push(...judged);
      if (kind === undefined) byGuiding.push(...compare(drawn, null).filter(isLogged));
      const blind = { ...drawn, guiding: null };
      if (kind === undefined) byDuration.push(...compare(blind, null).filter(isLogged));
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return [
    part('Stars measured in the pixels', byPixels),
    part('The same, nights that are wide or trailed as a whole', bad),
    part('Guiding samples alone, frames that only interruptions touched', byGuiding),
    part('Durations alone, the same frames', byDuration),
  ].join('\n\n');
}

function isLogged({ light }: Compared): boolean {
  return light.events.every((event) => LOGGED.has(event));
}

function part(title: string, compared: readonly Compared[]): string {
  return `${title} (${compared.length} frames):\n\n${confusionText(confusionOf(compared))}`;
}
