// One process that measures frames: node measure.cjs DIST strips|full THREADS FILE…
const { loader } = require('../support/load.cjs');

const [dist, by, threads, ...files] = process.argv.slice(2);
const { measureStars } = loader(dist, 'stars')('stars/index.js');
const frames = files.map((path, index) => ({ id: `${index}`, path, sizeBytes: 0, changedMs: 0 }));
measureStars(frames, { by, threads: Number(threads) }).then(({ measured, warnings }) => {
  for (const { message } of warnings) process.stderr.write(`${message}\n`);
  const [first] = measured.values();
  const peakMb = process.resourceUsage().maxRSS / 1024;
  process.stdout.write(
    `${JSON.stringify({ count: first.stars?.count, fwhm: first.stars?.fwhm, peakMb: Math.round(peakMb) })}\n`,
  );
});
