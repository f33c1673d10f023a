// The picture at the top of README.md: the first screen of the sample night's report, docs/report.png, at most 300 kB.
// `npm run picture` makes it anew.
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { root, withModule } from './load-ts.mjs';

const MOST_BYTES = 300_000;
const FILE = join(root, 'docs/report.png');

await withModule('/tests/support/gallery.ts', async ({ exhibits, withBrowser }) => {
  const [shown] = await exhibits(root, ['sample-twin-night']);
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-picture-'));
  try {
    const file = join(folder, 'report.html');
    writeFileSync(file, shown.html);
    await withBrowser(async (browser) => {
      const page = await browser.newPage();
      await page.setViewport({ width: 1280, height: 860 });
      await page.goto(pathToFileURL(file).href, { waitUntil: 'load' });
      await page.screenshot({ path: FILE });
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
const { size } = statSync(FILE);
console.log(`${FILE}: ${Math.round(size / 1000)} kB`);
if (size > MOST_BYTES) throw new Error(`${FILE} is larger than ${MOST_BYTES / 1000} kB`);
