/** Before any test: the program compiled where it is older than its sources, and a folder for pages rendered once. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { compile } from '../../scripts/prepare.mjs';

export default function setUp(project) {
  compile({ checked: false });
  const pages = mkdtempSync(join(tmpdir(), 'nightledger-pages-'));
  project.provide('renderedPages', pages);
  const empty = () => rmSync(pages, { recursive: true, force: true });
  // While the tests watch the sources, pages are of the sources before.
  project.onTestsRerun(empty);
  return empty;
}
