// Pictures of the reports, to be looked at: every invented night and every sample session at three widths and in three
// themes, and the pages of their PDFs, in the folder gallery/ (which git ignores).
// `npm run gallery -- twin-night no-site` makes those named alone.
import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { root, withModule } from './load-ts.mjs';

const WIDTHS = [360, 820, 1440];
const OTHER_THEMES = ['dark', 'red'];
const names = process.argv.slice(2);

async function photograph(browser, file, folder) {
  const page = await browser.newPage();
  await page.goto(pathToFileURL(file).href, { waitUntil: 'load' });
  for (const width of WIDTHS) {
    await page.setViewport({ width, height: 900 });
    await page.screenshot({ path: join(folder, `${width}.png`), fullPage: true });
  }
  for (const theme of OTHER_THEMES) {
    await page.evaluate((name) => {
      document.documentElement.dataset.theme = name;
    }, theme);
    await page.screenshot({ path: join(folder, `1440-${theme}.png`) });
  }
  await page.close();
}

await withModule('/tests/support/gallery.ts', async ({ exhibits, impressionOf, withBrowser }) => {
  for (const { name, html, pages } of await exhibits(root, names)) {
    // One browser each: a page opened after others were printed in the background is never painted.
    await withBrowser(async (browser) => {
      const folder = join(root, 'gallery', name);
      rmSync(folder, { recursive: true, force: true });
      mkdirSync(folder, { recursive: true });
      const file = join(folder, 'report.html');
      writeFileSync(file, html);
      await photograph(browser, file, folder);
      for (const edition of ['brief', 'full'])
        for (const paper of ['a4', 'letter'])
          writeFileSync(
            join(folder, `${edition}-${paper}.pdf`),
            await impressionOf(pages.print(edition), browser, paper),
          );
      const drawn = ['brief', 'full'].map((edition) =>
        spawnSync('pdftoppm', ['-r', '80', '-png', join(folder, `${edition}-a4.pdf`), join(folder, edition)]),
      );
      const error = drawn.some((one) => one.error);
      console.log(`${name}${error ? ' (pages not drawn: pdftoppm is missing)' : ''}`);
    });
  }
});
