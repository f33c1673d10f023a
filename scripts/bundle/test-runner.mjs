// How a worker of the compiled tests loads a file: by Node alone, anew for each time that it is asked for.
import { pathToFileURL } from 'node:url';
import { TestRunner } from 'vitest';

// A number as the test runner's own, which it leaves out where it names places in a file.
let number = Date.now();

export default class CompiledTestRunner extends TestRunner {
  /** @param {string} path of a file of tests, or of what runs before each */
  importFile(path) {
    return import(`${pathToFileURL(path).href}?vitest=${++number}`);
  }
}
