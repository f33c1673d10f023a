// One process that measures a folder: measure-night.mjs DIST WORKER FRAMES CACHE
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [dist, threadProgram, folder, cacheFolder] = process.argv.slice(2);
const { measureStars } = await import(pathToFileURL(`${dist}/stars/index.js`).href);
const frames = readdirSync(folder).map((name) => {
  const path = join(folder, name);
  const { size, mtimeMs } = statSync(path);
  return { id: name, path, sizeBytes: size, changedMs: mtimeMs };
});
const begin = performance.now();
const { measured } = await measureStars(frames, { by: 'strips', threads: 2, threadProgram, cacheFolder });
const seconds = (performance.now() - begin) / 1000;
const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
process.stdout.write(
  JSON.stringify({
    count: [...measured.values()].filter((one) => 'stars' in one).length,
    seconds,
    processorSeconds: (userCPUTime + systemCPUTime) / 1e6,
    peakMb: Math.round(maxRSS / 1024),
  }),
);
