// One run of the header reader as a whole process: node read.cjs DIST LIST, in the folder that the list's paths start from.
const { readFileSync, writeSync } = require('node:fs');
const { leave, loader } = require('../support/load.cjs');

const [dist, list] = process.argv.slice(2);
const { readHeaderFrames } = loader(dist, 'headers')('gather/fits/index.js');
const paths = readFileSync(list, 'utf8').trimEnd().split('\n');
readHeaderFrames('.', paths, { nowMs: Date.UTC(2030, 0, 1) }).then(({ frames, warnings }) => {
  // The sums that cfitsio.c prints, over the same sixteen values.
  let characters = 0;
  let sum = 0;
  for (const f of frames) {
    characters +=
      f.filter.length +
      f.target.length +
      f.telescope.length +
      f.instrument.length +
      (f.kind === 'light' ? 'Light Frame'.length : 0);
    sum +=
      (f.exposure.startMs % 1000) +
      f.exposureSeconds +
      f.pointing.raDeg +
      f.pointing.decDeg +
      f.sensorTemperatureC +
      f.gain +
      f.offset +
      f.binning.x +
      f.binning.y +
      f.focusPosition +
      f.focalLengthMm;
  }
  // Past the streams that `console` would be loaded for: of a process this short they are a twentieth.
  writeSync(1, `${frames.length} frames, ${characters} characters, sum ${sum.toFixed(3)}\n`);
  if (warnings.length > 0) console.error(warnings);
  leave();
});
