/** V8 as the program sets it for itself, once what every command loads is there. */
import { inlineAsUsual, inlineLess } from './inlining.js';
import { letNurseryGo, setNursery } from './nursery.js';

/** For the whole process. To be called when what every command loads is there. */
export function setEngine(command: string): void {
  setNursery(command);
  inlineLess();
}

/**
 * Does something under the flags that Node started with: V8 takes the compiled code that Node has of its own modules,
 * and that a run before left of the program's, only where all flags are the same. What is loaded under others is
 * compiled.
 */
export function underNodesFlags<T>(work: () => T): T {
  const undo = [letNurseryGo(), inlineAsUsual()];
  try {
    return work();
  } finally {
    for (const back of undo) back();
  }
}
