/** V8 as the program sets it for itself, once what every command loads is there. */
import { inlineAsUsual, inlineLess } from './inlining.js';
import { letNurseryGo, setNursery } from './nursery.js';

/** For the whole process. To be called when what every command loads is there. */
export function setEngine(command: string): void {
  setNursery(command);
  inlineLess();
}

/**
 * Does something under the flags that Node started with: V8 accepts compiled code of Node's own modules, and of the
 * program's from an earlier run, only if all flags are the same. Modules loaded under others are compiled.
 */
export function underNodesFlags<T>(work: () => T): T {
  const undo = [letNurseryGo(), inlineAsUsual()];
  try {
    return work();
  } finally {
    for (const back of undo) back();
  }
}
