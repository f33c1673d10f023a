// One printing as a whole process: node print.mjs PAGE PDF, beside the bundled stage.
import { readFileSync } from 'node:fs';
import { printPdf } from './report/pdf/index.js';

const [page, pdf] = process.argv.slice(2);
await printPdf(readFileSync(page, 'utf8'), pdf, { paper: 'a4' });
