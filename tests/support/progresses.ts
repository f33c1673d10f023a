/**
 * Whole archives as the progress page gets them, for tests of the page. Invented throughout.
 */
import { join } from 'node:path';
import { readFileSync } from 'node:fs';
import { NO_BOOK, parseGoals } from '../../src/config/index.js';
import { lookAhead } from '../../src/look-ahead.js';
import type { GoalsBook, NightSummary, Outlook, Progress } from '../../src/model/index.js';
import { progressOf } from '../../src/progress/index.js';
import { archivedNights } from '../../src/archive.js';
import { hoursOf, summaryOf } from './records.js';
import { sampleFolder } from './sample-night.js';

export interface NamedProgress {
  readonly progress: Progress;
  readonly outlook: Outlook | null;
}

const NOW_MS = Date.UTC(2026, 10, 25, 12);

function of(nights: readonly NightSummary[], book: GoalsBook = NO_BOOK): NamedProgress {
  const siteKey = (night: NightSummary): string | null => night.site?.name ?? null;
  const progress = progressOf(nights, book, siteKey);
  return { progress, outlook: lookAhead(progress, book, siteKey, { nowMs: NOW_MS }) };
}

const addDays = (date: string, days: number): string =>
  new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
const goals = (yaml: string): GoalsBook => parseGoals('goals.yaml', yaml).book;

const LONG =
  'The very faint outer halo of an unnamed planetary nebula in the constellation of the Giraffe, <second> "attempt" & more';

const { nights: AUTUMN } = await archivedNights(sampleFolder('autumn-archive'));

const MAKERS: Readonly<Record<string, () => NamedProgress>> = {
  'autumn-archive': () => {
    const folder = sampleFolder('autumn-archive');
    return of(AUTUMN, goals(readFileSync(join(folder, 'goals.yaml'), 'utf8')));
  },
  'one-night': () => of([summaryOf('2026-10-01', [hoursOf('M 33', 'L', 'heron', 3)])]),
  'no-site': () =>
    of(
      [summaryOf('2026-10-01', [hoursOf('', '', 'heron', 3)], { site: null, isDarkness: false, targets: [] })],
      goals('targets: [ { name: M 33, goals: { L: 5h } } ]'),
    ),
  'all-finished': () =>
    of(
      Array.from({ length: 8 }, (_, i) =>
        summaryOf(addDays('2026-09-01', i * 3), [
          hoursOf('M 33', 'L', 'heron', 3),
          hoursOf('M 33', 'L', 'wren', 2.5, 0.5),
        ]),
      ),
      goals('targets: [ { name: M 33, goals: { L: 20h } } ]'),
    ),
  'many-targets': () => {
    const names = Array.from({ length: 14 }, (_, i) => (i === 0 ? LONG : `Field ${i}`));
    const nights = Array.from({ length: 60 }, (_, i) => {
      const name = names[i % names.length] ?? '';
      const place = { name, aliases: [], raDeg: (i % names.length) * 25, decDeg: -20 + (i % names.length) * 8 };
      return summaryOf(
        addDays('2025-01-03', i * 12),
        ['Ha', 'A filter with a name of its own'].flatMap((filter) =>
          ['heron', 'wren', 'egret'].map((train) => hoursOf(name, filter, train, 1 + (i % 3), i % 7 === 0 ? 0.4 : 0)),
        ),
        { targets: [place], report: i % 5 === 0 ? `reports/${i}/report.html` : null },
      );
    });
    return of(
      nights,
      goals(
        `targets:\n${names.map((name, i) => `  - { name: ${JSON.stringify(name)}, goals: { Ha: ${i * 12}h }, goalsPerTrain: { wren: { L: 30h } } }`).join('\n')}`,
      ),
    );
  },
};

export const PROGRESS_NAMES = Object.keys(MAKERS);

const made = new Map<string, NamedProgress>();

/** One of the archives by its name; made once. Whoever changes something makes a copy. */
export function namedProgress(name: string): NamedProgress {
  const make = MAKERS[name];
  if (!make) throw new RangeError(`no progress is called ${name}`);
  const progress = made.get(name) ?? make();
  made.set(name, progress);
  return progress;
}
