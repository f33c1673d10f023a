/**
 * Loads the built program's modules with their compiled code, where it was stored by a run before: compiling takes a
 * fifth of a report's time.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Script } from 'node:vm';
import { type CodeByFile, readStored, store } from './code-store.js';

interface LoadedModule {
  exports: unknown;
}

type Wrapped = (
  exports: unknown,
  require: (id: string) => unknown,
  module: LoadedModule,
  filename: string,
  folder: string,
) => void;

/** The built program's modules: files of a folder, in the form of `require`. */
export class CompiledModules {
  private readonly modules = new Map<string, LoadedModule>();
  private readonly scripts = new Map<string, { readonly script: Script; readonly stamp: string }>();
  private readonly stored: CodeByFile;
  private readonly requireOther: NodeJS.Require;
  private compiled = 0;
  /** Where code is compiled, and where compiled code is taken or made. */
  around: <T>(work: () => T) => T = (work) => work();

  /**
   * @param folder where the modules are
   * @param file where compiled code is kept
   */
  constructor(
    private readonly folder: string,
    private readonly file: string,
  ) {
    this.stored = readStored(file);
    this.requireOther = createRequire(join(folder, 'any.js'));
  }

  /** The exports of a module, by its path within the folder. */
  load(name: string): unknown {
    const known = this.modules.get(name);
    if (known !== undefined) return known.exports;
    const module: LoadedModule = { exports: {} };
    // Before it runs: modules may ask for each other.
    this.modules.set(name, module);
    const path = join(this.folder, name);
    const run = this.compile(name, path).runInThisContext() as Wrapped;
    const require = (id: string): unknown =>
      id.startsWith('.') ? this.load(join(dirname(name), id)) : this.requireOther(id);
    run.call(module.exports, module.exports, require, module, path, dirname(path));
    return module.exports;
  }

  /** Stores the code of this run's modules, unless all of it was stored already. Called at the program's end. */
  keep(): void {
    if (this.compiled === 0) return;
    const isThere = ([name]: [string, unknown]): boolean => existsSync(join(this.folder, name));
    // What was stored of other modules; of its own this run kept none in memory.
    const code: CodeByFile = new Map([...readStored(this.file)].filter(isThere));
    this.around(() => {
      for (const [name, { script, stamp }] of this.scripts) code.set(name, { stamp, code: script.createCachedData() });
    });
    store(this.file, code);
  }

  private compile(name: string, path: string): Script {
    const { size, mtimeMs, ctimeMs } = statSync(path);
    const stamp = `${size} ${mtimeMs} ${ctimeMs}`;
    const known = this.stored.get(name);
    const cachedData = known?.stamp === stamp ? known.code : undefined;
    // Of use once: megabytes that would stay in memory to the end.
    this.stored.delete(name);
    const source = readFileSync(path, 'utf8');
    const wrapped = `(function (exports, require, module, __filename, __dirname) { ${source}\n})`;
    const script = this.around(() => new Script(wrapped, { filename: path, cachedData }));
    if (cachedData === undefined || script.cachedDataRejected === true) this.compiled++;
    this.scripts.set(name, { script, stamp });
    return script;
  }
}
