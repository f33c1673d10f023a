/**
 * How untouched drafts do on a folder of logs with their truth: bundle it with esbuild and run it with the folder.
 * FACTS=1 lists the facts that are missing or wrong as well, FRAMES=1 drafts beside the frames of the session.
 */
import { factLines, logsIn, scoreBesideFrames, scoreLine, scoreLog } from './score-folder.js';

const [folder = '', verbose] = process.argv.slice(2);
for (const log of logsIn(folder)) {
  if (verbose !== undefined && verbose !== '-v' && !log.includes(verbose)) continue;
  try {
    const score = process.env.FRAMES === undefined ? await scoreLog(folder, log) : await scoreBesideFrames(folder, log);
    if (score === null) continue;
    console.log(scoreLine(score));
    if (process.env.FACTS !== undefined) console.log(factLines(score));
    if (verbose !== undefined) console.log(score.yaml);
  } catch (error) {
    console.log(`${log}: ${error instanceof Error ? (error.stack ?? '').slice(0, 1500) : String(error)}`);
  }
}
