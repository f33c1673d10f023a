// A report's page as PDF, tagged and outlined, against the browser's own printing of the same page: whole processes,
// run in turn, medians.
//
//   npm run build
//   node bench/pdf/run.mjs [--runs N]
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { bundle } from '../support/bundle.mjs';
import { goal } from '../support/goal.mjs';
import { demandProgram, inTurn, program, ratioOf, timed, workFolder } from '../support/measure.mjs';

const { values } = parseArgs({ options: { runs: { type: 'string', default: '5' } } });
const WHAT = 'PDF of the sample night’s page';
const UNIT = '× the browser’s own --print-to-pdf';
const here = fileURLToPath(new URL('.', import.meta.url));
const root = fileURLToPath(new URL('../..', import.meta.url));

demandProgram();
const folder = workFolder('pdf');
const js = join(folder, 'js');
await bundle(js, ['report/pdf/index.ts']);
const { findBrowser } = await import(pathToFileURL(join(js, 'report/pdf/index.js')).href);
const browser = browserOrNull();
if (browser === null) goal(WHAT, null, 1, 'no browser was found');
else {
  program('report', join(root, 'sample-sessions/twin-night'), '--out', folder, '--no-pdf', '--quiet');
  const page = join(folder, 'report.html');
  const own = ['--headless', '--no-sandbox', '--disable-gpu', '--no-pdf-header-footer'];
  const [ours, theirs] = inTurn(Number(values.runs), [
    () => timed(process.execPath, [join(here, 'print.cjs'), js, page, join(folder, 'ours.pdf')]),
    () =>
      timed(browser, [
        ...own,
        `--user-data-dir=${join(folder, 'profile')}`,
        `--print-to-pdf=${join(folder, 'own.pdf')}`,
        pathToFileURL(page).href,
      ]),
  ]);
  goal(WHAT, ratioOf(ours, theirs), 1, UNIT);
}

function browserOrNull() {
  try {
    return findBrowser();
  } catch {
    return null;
  }
}
