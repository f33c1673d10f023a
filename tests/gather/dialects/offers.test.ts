import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { QUESTIONS } from '../../../src/gather/dialects/draft/ask.js';
import { inFull } from '../../support/runs.js';
import { logsIn } from './support/score-folder.js';
import { walkThrough, type Walk } from './support/walk.js';

const OPEN = join(dirname(fileURLToPath(import.meta.url)), 'strangers/open');
/** Rows that show the states of all devices tell by what has changed from row to row, several things each at times. */
const OF_STATES = 'wetterhahn.csv';
/** What logs short of the goal are read to; of those read to less than a half, the clock or the layout is missing. */
const SHORT = JSON.parse(readFileSync(join(OPEN, '../short.json'), 'utf8')) as Record<string, { right?: number }>;
const isLost = (log: string): boolean => (SHORT[log]?.right ?? 1) < 0.5;
/** Lines of a document are counted by its records, while the truth counts those of the file. */
const LOGS = logsIn(OPEN).filter((log) => !/\.(?:xml|json)$/.test(log) && log !== OF_STATES && !isLost(log));
/** Short logs that leave something to choose, with few questions and with many. */
const FEW = ['sereno_2026-10-12.log', 'gantry.log', 'gannet.log'];

/** Half a minute for a question: three lines are read, and one of up to seven events is chosen. */
const SECONDS_EACH = 30;
const FIFTEEN_MINUTES = 900;

describe('the lines that drafts leave to choose', () => {
  it('come with the event that they tell, and are decided on in a quarter of an hour', async () => {
    const logs = inFull(LOGS, FEW);
    const walks: Walk[] = [];
    for (const log of logs) walks.push(await walkThrough(OPEN, log));
    const sum = (of: 'reported' | 'offered' | 'ofTwo' | 'before' | 'after'): number =>
      walks.reduce((all, one) => all + one[of], 0);
    const questions = walks.map((one) => one.questions).sort((a, b) => a - b);
    // Floors that only rise, but where formats come that are read to a part: without those of the last hands 0.88.
    expect(sum('offered') / sum('reported')).toBeGreaterThanOrEqual(inFull(0.92, 0.95));
    expect(sum('ofTwo') / sum('reported')).toBeGreaterThanOrEqual(0.8);
    expect(sum('after') / walks.length).toBeGreaterThanOrEqual(0.98);
    expect(sum('after')).toBeGreaterThan(sum('before'));
    expect(questions[questions.length >> 1] ?? 0).toBeLessThanOrEqual(inFull(13, QUESTIONS));
    expect(Math.max(...questions)).toBeLessThanOrEqual(QUESTIONS);
    expect(QUESTIONS * SECONDS_EACH).toBeLessThan(FIFTEEN_MINUTES);
    expect(Math.max(...walks.map(({ keys }) => keys))).toBeLessThanOrEqual(QUESTIONS * 8);
  });

  it('stand in the folder', () => {
    for (const log of FEW) expect(readdirSync(OPEN)).toContain(log);
  });
});
