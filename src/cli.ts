#!/usr/bin/env node
import { startProgram } from './cli/start.js';
import { programVersion } from './cli/version.js';

const args = process.argv.slice(2);
// Who reads the answer may have seen enough of it, `| head` say.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(process.exitCode);
    throw error;
  });
// The most asked and the cheapest to answer: nothing else is loaded for it.
if (args.length === 1 && (args[0] === '--version' || args[0] === '-V')) {
  process.stdout.write(`${programVersion()}\n`);
} else {
  startProgram(args);
}
