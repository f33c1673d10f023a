// How a worker of the compiled tests loads a file: by Node alone, anew for each time that it is asked for.
import { pathToFileURL } from 'node:url';
import { TestRunner } from 'vitest';

// A number as the test runner's own, which it leaves out where it names places in a file.
let number = Date.now();

/** What runs before each file of tests, by its path: to load it anew takes half of what a file of tests takes. */
const setUps = new Map();

export default class CompiledTestRunner extends TestRunner {
  /**
   * @param {string} path of a file of tests, or of what runs before each: that is loaded once, and what it gives called
   * @param {'collect' | 'setup'} source
   */
  async importFile(path, source) {
    if (source !== 'setup') return import(`${pathToFileURL(path).href}?vitest=${++number}`);
    const known = setUps.get(path);
    if (known) known.default();
    else setUps.set(path, await import(pathToFileURL(path).href));
    return setUps.get(path);
  }
}
