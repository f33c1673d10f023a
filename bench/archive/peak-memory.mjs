// Runs the command line in this process and says how much memory it took at most, in kilobytes, and how much processor
// time, in seconds.
import { pathToFileURL } from 'node:url';

const [, , cli, ...args] = process.argv;
process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  process.stdout.write(`peak ${maxRSS} cpu ${(userCPUTime + systemCPUTime) / 1e6}\n`);
});
process.argv = [process.execPath, cli, ...args];
await import(pathToFileURL(cli).href);
