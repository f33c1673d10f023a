/**
 * How untouched drafts do on formats that chance has made: bundle it with esbuild and run it with the number of logs,
 * the share of made-up words and, to see one, its seed.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { scoreLine, scoreLog, type StrangerScore } from '../support/score-folder.js';
import { inventedLog } from './make-format.js';

/** Draws a log into a folder and scores an untouched draft of it. */
export async function scoreInvented(
  folder: string,
  seed: number,
  madeUp: number,
): Promise<StrangerScore & { made: string }> {
  const log = inventedLog(seed, madeUp);
  writeFileSync(join(folder, log.name), log.text);
  const stem = log.name.replace(/\.[^.]+$/, '');
  writeFileSync(join(folder, `${stem}.truth.jsonl`), log.truth.map((row) => `${JSON.stringify(row)}\n`).join(''));
  return { ...(await scoreLog(folder, log.name)), made: log.made };
}

const [count, share, only] = process.argv.slice(2);
if (count !== undefined && share !== undefined) {
  const folder = mkdtempSync(join(tmpdir(), 'invented-'));
  const sums = { truth: 0, right: 0, wrong: 0, badTime: 0 };
  for (
    let seed = only === undefined ? 1 : Number(only);
    seed <= (only === undefined ? Number(count) : Number(only));
    seed++
  ) {
    try {
      const score = await scoreInvented(folder, seed, Number(share));
      sums.truth += score.truth;
      sums.right += score.right;
      sums.wrong += score.wrong;
      if (score.timesRight < 0.95) sums.badTime++;
      console.log(`${score.made}: ${scoreLine(score)}`);
      if (only !== undefined) {
        console.log(inventedLog(seed, Number(share)).text.split('\n').slice(0, 70).join('\n'));
        console.log(score.yaml);
      }
    } catch (error) {
      console.log(`${seed}: ${error instanceof Error ? (error.stack ?? '').slice(0, 400) : String(error)}`);
    }
  }
  const percent = (part: number): string => `${((100 * part) / Math.max(1, sums.truth)).toFixed(1)} %`;
  console.log(`all: ${percent(sums.right)} right, ${percent(sums.wrong)} wrong, ${sums.badTime} with wrong times`);
  rmSync(folder, { recursive: true, force: true });
}
