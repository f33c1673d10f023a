// Loaded into the measured program: says at its end how much memory it took at most.
import { writeSync } from 'node:fs';

process.on('exit', () => {
  writeSync(3, String(process.resourceUsage().maxRSS));
});
