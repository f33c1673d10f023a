// Runs the command line as it is installed and prints its peak memory (kB) as the last line of stderr.
process.on('exit', () => process.stderr.write(`\npeak-kb ${process.resourceUsage().maxRSS}\n`));
await import('../../dist/cli.js');
