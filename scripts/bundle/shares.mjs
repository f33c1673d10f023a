// Which process runs which files of tests. Files that exercise the same code go to the same one: what is run often is
// compiled, and what is made once in a process is made, in one of them and not in all.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ForksPoolWorker } from 'vitest/node';
import { root } from '../prepare.mjs';

/** Folders of tests that run what one process compiles; those of other folders go to a second. */
const FIRST = [
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

/**
 * Tests that start programs and wait for them most of their time. They have a process of their own beside those that
 * keep both cores busy: where the page waits for its browser as well, half a core had nothing to do.
 */
const WAITING = [
  'cli/interrupted',
  'cli/process',
  'files/lock',
  'files/remove-folder',
  'gather/fits/fits-writer',
  'hostile/absurd-numbers',
  'hostile/caches-and-trees',
  'hostile/code-execution',
  'hostile/crowds',
  'hostile/disk',
  'hostile/full-disk',
  'hostile/hangs',
  'hostile/hostile-records',
  'hostile/killed',
  'hostile/odd-frames',
  'hostile/odd-header',
  'hostile/user-folders',
  'package/bench',
  'package/pack',
  'package/passed-before',
  'package/prepare',
  'sorting/killed-half-way',
  'sorting/real-disk',
];

for (const name of WAITING)
  if (!existsSync(join(root, 'tests', `${name}.test.ts`)))
    throw new Error(`${name} is among the tests that wait, and there is none`);

/** Processes. */
export const SHARES = 3;
/** Of the process that waits. */
const LAST = SHARES - 1;

function shareOf(file) {
  const [, path = ''] = /.*[\\/]tests[\\/](.*)\.test\.\w+$/.exec(file) ?? [];
  const name = path.replaceAll('\\', '/');
  if (WAITING.includes(name)) return LAST;
  return FIRST.includes(name.split('/')[0]) ? 0 : 1;
}

/** What is left to run, in shares, each in its order. */
export class Shares {
  /** @type {string[][]} */
  #left = [];
  /** @type {((file: string) => void)[]} what waits for a file that nobody else takes */
  #resting = [];

  /** @param {readonly string[]} files paths of test files, those to begin with first */
  shareOut(files) {
    this.#left = Array.from({ length: SHARES }, (_, share) => files.filter((file) => shareOf(file) === share));
  }

  /** How many files nobody has taken yet. */
  get count() {
    return this.#left.reduce((sum, files) => sum + files.length, 0);
  }

  /**
   * Hands out a file of a share. Where nothing is left of it, the last of the share of which most is left, so that both
   * cores are busy to the end; but the process that waits would be a third for two cores, and gets one of those only
   * when there is nobody else to ask for it.
   *
   * @param {number} share 0 to {@link SHARES} - 1
   * @param {(file: string) => void} run called once, at once or later; each file is asked for once
   */
  take(share, run) {
    const own = this.#left[share]?.shift();
    if (own !== undefined) run(own);
    else if (share === LAST) this.#resting.push(run);
    else this.#handLast(run);
    if (this.count <= this.#resting.length) for (const one of this.#resting.splice(0)) this.#handLast(one);
  }

  #handLast(run) {
    const file = this.#left.reduce((most, files) => (files.length > most.length ? files : most), []).pop();
    if (file !== undefined) run(file);
  }
}

const NAME = 'shares';
const shares = new Shares();
let started = 0;

/** @param {readonly { moduleId: string, testLines?: unknown, testIds?: unknown }[]} files in the order to be kept */
export function shareOut(files) {
  // Where lines of files are asked for, each is run as it is asked for.
  const areWhole = files.every(({ testLines, testIds }) => !testLines?.length && !testIds?.length);
  shares.shareOut(areWhole ? files.map(({ moduleId }) => moduleId) : []);
}

/**
 * A process of tests that takes files of its share. The test runner hands each process the next file of all: as many
 * times as it does, another of the same files is taken in its stead, so that in the end each has been run once.
 */
class ShareWorker extends ForksPoolWorker {
  name = NAME;
  #share = started++ % SHARES;

  send(message) {
    const files = message.context?.files;
    if (files?.length !== 1 || shares.count === 0) {
      super.send(message);
      return;
    }
    shares.take(this.#share, (filepath) => {
      super.send({ ...message, context: { ...message.context, files: [{ ...files[0], filepath }] } });
    });
  }
}

/** For the test runner's option `pool`. */
export const inShares = { name: NAME, createPoolWorker: (options) => new ShareWorker(options) };
