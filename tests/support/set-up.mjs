/** Before any test: the program compiled where it is older than its sources, and folders for what is made once a run. */
import { mkdirSync, mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { compile } from '../../scripts/prepare.mjs';

export default function setUp(project) {
  compile({ checked: false });
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-run-'));
  const [pages, browsers] = ['pages', 'browsers'].map((name) => join(folder, name));
  for (const path of [pages, browsers]) mkdirSync(path);
  project.provide('renderedPages', pages);
  project.provide('browserFolders', browsers);
  // A browser ends with its process of tests, which is ended meanwhile: retried, each time after a longer while.
  const remove = (path) => rm(path, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  // While the tests watch the sources, pages are of the sources before.
  project.onTestsRerun(() => remove(pages));
  return () => remove(folder);
}
