// One printing as a whole process: node print.cjs DIST PAGE PDF.
const { readFileSync } = require('node:fs');
const { loader } = require('../support/load.cjs');

const [dist, page, pdf] = process.argv.slice(2);
const { printPdf } = loader(dist, 'pdf')('report/pdf/index.js');
printPdf(readFileSync(page, 'utf8'), pdf, { paper: 'a4' });
