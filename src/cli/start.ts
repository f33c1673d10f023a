/** Starts the built program: this file is inside `dist/cli.js`, with the modules it loads next to it. */
import { join } from 'node:path';
import { arch, versions } from 'node:process';
import { cacheFolder } from '../files/cache-folder.js';
import { CompiledModules } from './compiled-modules.js';
import { leave } from './leave.js';
import { programVersion } from './version.js';

/** The build output of `main.ts`. */
const MAIN = 'main.js';
/** Each command uses other parts of the program. */
const COMMAND = /^[a-z]{3,12}$/;

/** Runs one command line, with compiled code that the last run of its kind left. */
export function startProgram(args: readonly string[]): void {
  const [command = 'help'] = args;
  const modules = new CompiledModules(import.meta.dirname, storeOf(COMMAND.test(command) ? command : 'help'));
  const { run, setEngine, underNodesFlags } = modules.load(MAIN) as typeof import('./main.js');
  modules.around = underNodesFlags;
  setEngine(command);
  process.on('exit', (code) => {
    if (code === 0) modules.keep();
  });
  void run(args).then((code) => {
    process.exitCode = code;
    leave();
  });
}

/** Code compiled by one engine is of no use to another. */
function storeOf(command: string): string {
  const engine = `${programVersion()}-${versions.v8}-${arch}`;
  return join(cacheFolder('code', process.env, process.platform), engine, `${command}.code`);
}
