#!/usr/bin/env node
import { startProgram } from './cli/start.js';
import { programVersion } from './cli/version.js';

const args = process.argv.slice(2);
// The reader of the output may have closed it, such as `| head`.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(process.exitCode);
    throw error;
  });
// The most frequent and the cheapest request: nothing else is loaded for it.
if (args.length === 1 && (args[0] === '--version' || args[0] === '-V')) {
  process.stdout.write(`${programVersion()}\n`);
} else {
  startProgram(args);
}
