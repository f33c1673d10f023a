// Asks the registry whether a package that the program is built from has a known weakness (npm audit). A registry that
// does not answer is no pass: the script says so, and ends well all the same, for then nothing can be known.
//   node scripts/audit.mjs
import { spawnSync } from 'node:child_process';

const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
const { stdout, stderr } = spawnSync(npm, ['audit', '--json'], {
  encoding: 'utf8',
  shell: process.platform === 'win32',
  timeout: 120_000,
});

/** What npm answered; `null` where it is no report. */
function reportOf(text) {
  try {
    const value = JSON.parse(text);
    return value?.metadata?.vulnerabilities === undefined ? null : value;
  } catch {
    return null;
  }
}

const report = reportOf(stdout);
if (report === null) {
  const why = /"summary": "([^"]+)"|npm (?:error|ERR!) (.+)/.exec(`${stdout}\n${stderr}`);
  process.stdout.write(
    `audit: the registry gave no answer (${why?.[1] ?? why?.[2] ?? 'no reason given'}); nothing is known\n`,
  );
} else {
  const { vulnerabilities, dependencies } = report.metadata;
  process.stdout.write(`audit: ${vulnerabilities.total} known weaknesses in ${dependencies.total} packages\n`);
  for (const { name, severity, range } of Object.values(report.vulnerabilities ?? {}))
    process.stdout.write(`  ${name} ${range}: ${severity}\n`);
  if (vulnerabilities.total > 0) process.exitCode = 1;
}
