// Runs the command line and prints its peak memory (kB) as the last line of stderr.
import { run } from '../../dist/main.js';

process.exitCode = await run(process.argv.slice(2));
process.on('exit', () => process.stderr.write(`\npeak-kb ${process.resourceUsage().maxRSS}\n`));
