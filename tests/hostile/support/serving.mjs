// The compiled program in a process that answers one command line after another, each in the folder and with the
// environment that its question names: a start takes longer than most attacks.
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const [, , program] = process.argv;
const { run } = createRequire(import.meta.url)(program);
const home = process.cwd();
/** What attacks before left is collected where the process holds more than this. */
const ROOMY_BYTES = 250e6;

/** Begins to count the most memory taken anew, where the system can (Linux, proc(5)): elsewhere it counts on. */
function countAnew() {
  if (process.memoryUsage.rss() > ROOMY_BYTES) globalThis.gc();
  try {
    writeFileSync('/proc/self/clear_refs', '5');
  } catch {
    // The bound then holds for all attacks of this process together.
  }
}

async function answer({ args, cwd, env }) {
  const said = { stdout: '', stderr: '' };
  const sink = (name) => ({
    write(text) {
      said[name] += text;
    },
  });
  countAnew();
  process.chdir(cwd);
  process.env = env;
  try {
    const status = await run(args, { stdout: sink('stdout'), stderr: sink('stderr'), env, nowMs: Date.now() });
    return { status, ...said, kilobytes: process.resourceUsage().maxRSS };
  } finally {
    process.chdir(home);
  }
}

process.on('message', async (question) => process.send(await answer(question)));
process.on('disconnect', () => process.exit());
