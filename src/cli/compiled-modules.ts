/**
 * Loads the built program's modules with their compiled code, if stored by an earlier run: compiling takes a fifth of a
 * report's time.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Script } from 'node:vm';
import { type Code, StoredCode, store } from './code-store.js';

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
  private readonly stored: StoredCode;
  private compiled = 0;
  /** Where modules are loaded, and their compiled code is made. */
  around: <T>(work: () => T) => T = (work) => work();

  /**
   * @param folder where the modules are
   * @param file where compiled code is kept
   */
  constructor(
    private readonly folder: string,
    private readonly file: string,
  ) {
    this.stored = new StoredCode(file);
  }

  /** The exports of a module, by its path within the folder. */
  load(name: string): unknown {
    const known = this.modules.get(name);
    if (known !== undefined) return known.exports;
    return this.around(() => this.run(name));
  }

  /** Stores the code of this run's modules, unless all of it was stored already. Called at the program's end. */
  keep(): void {
    this.stored.close();
    if (this.compiled === 0) return;
    const code = new Map<string, Code>();
    // Stored code of other modules, by this run or a concurrent one.
    const stored = new StoredCode(this.file);
    for (const [name, one] of stored.all()) if (existsSync(join(this.folder, name))) code.set(name, one);
    stored.close();
    this.around(() => {
      for (const [name, { script, stamp }] of this.scripts) code.set(name, { stamp, code: script.createCachedData() });
    });
    store(this.file, code);
  }

  private run(name: string): unknown {
    const module: LoadedModule = { exports: {} };
    // Before it runs: modules may ask for each other.
    this.modules.set(name, module);
    const path = join(this.folder, name);
    const run = this.compile(name, path).runInThisContext() as Wrapped;
    const require = (id: string): unknown =>
      id.startsWith('.') ? this.load(join(dirname(name), id)) : this.around(() => this.other(id));
    run.call(module.exports, module.exports, require, module, path, dirname(path));
    return module.exports;
  }

  /** What Node has, or what is installed. */
  private other(id: string): unknown {
    const builtin: unknown = process.getBuiltinModule(id);
    if (builtin !== undefined) return builtin;
    const { createRequire } = process.getBuiltinModule('node:module');
    return createRequire(join(this.folder, 'any.js'))(id);
  }

  private compile(name: string, path: string): Script {
    const { size, mtimeMs, ctimeMs } = statSync(path);
    const stamp = `${size} ${mtimeMs} ${ctimeMs}`;
    const cachedData = this.stored.of(name, stamp);
    const source = readFileSync(path, 'utf8');
    const wrapped = `(function (exports, require, module, __filename, __dirname) { ${source}\n})`;
    const script = new Script(wrapped, { filename: path, cachedData });
    if (cachedData === undefined || script.cachedDataRejected === true) this.compiled++;
    this.scripts.set(name, { script, stamp });
    return script;
  }
}
