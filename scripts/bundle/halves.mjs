// Which of two processes runs which files of tests. Files that exercise the same code go to the same one: what is run
// often is compiled, and what is made once in a process is made, in one of them and not in both.
import { ForksPoolWorker } from 'vitest/node';

/** Folders of tests that run what one process compiles; all others go to the other one. */
const FIRST_HALF = [
  'page',
  'report',
  'record',
  'findings',
  'replay',
  'reconstruct',
  'progress',
  'plan',
  'outlook',
  'worth',
  'account',
  'sky',
  'sessions',
  'published',
  'model',
];

/** What is left to run, in two halves, each in its order. */
export class Halves {
  /** @type {[string[], string[]]} */
  #left = [[], []];

  /** @param {readonly string[]} files paths of test files, those to begin with first */
  shareOut(files) {
    this.#left = [[], []];
    for (const file of files) {
      const [, folder = ''] = /.*[\\/]tests[\\/]([^\\/]+)[\\/]/.exec(file) ?? [];
      this.#left[FIRST_HALF.includes(folder) ? 0 : 1].push(file);
    }
  }

  /**
   * The next file of one half: where nothing is left of it, the last of the other.
   *
   * @param {number} half 0 or 1
   * @returns {string | undefined} undefined where nothing is left at all
   */
  take(half) {
    return this.#left[half].shift() ?? this.#left[1 - half].pop();
  }
}

const NAME = 'halves';
const halves = new Halves();
let started = 0;

/** @param {readonly { moduleId: string, testLines?: unknown, testIds?: unknown }[]} files in the order to be kept */
export function shareOut(files) {
  // Where lines of files are asked for, each is run as it is asked for.
  const areWhole = files.every(({ testLines, testIds }) => !testLines?.length && !testIds?.length);
  halves.shareOut(areWhole ? files.map(({ moduleId }) => moduleId) : []);
}

/**
 * A process of tests that takes files of its half. The test runner hands each process the next file of all: as many
 * times as it does, another of the same files is taken in its stead, so that in the end each has been run once.
 */
class HalfWorker extends ForksPoolWorker {
  name = NAME;
  #half = started++ % 2;

  send(message) {
    const files = message.context?.files;
    const filepath = files?.length === 1 ? halves.take(this.#half) : undefined;
    if (filepath === undefined) super.send(message);
    else super.send({ ...message, context: { ...message.context, files: [{ ...files[0], filepath }] } });
  }
}

/** For the test runner's option `pool`. */
export const inHalves = { name: NAME, createPoolWorker: (options) => new HalfWorker(options) };
