// One process that measures frames: measure.mjs DIST strips|full THREADS FILE…
import { pathToFileURL } from 'node:url';

const [dist, by, threads, ...files] = process.argv.slice(2);
const { measureStars } = await import(pathToFileURL(`${dist}/stars/index.js`).href);
const frames = files.map((path, index) => ({ id: `${index}`, path, sizeBytes: 0, changedMs: 0 }));
const { measured, warnings } = await measureStars(frames, { by, threads: Number(threads) });
for (const { message } of warnings) process.stderr.write(`${message}\n`);
const [first] = measured.values();
const peakMb = process.resourceUsage().maxRSS / 1024;
process.stdout.write(
  `${JSON.stringify({ count: first.stars?.count, fwhm: first.stars?.fwhm, peakMb: Math.round(peakMb) })}\n`,
);
