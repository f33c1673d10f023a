/**
 * Stages of a night: each names the parts it needs and the one it produces, and gets nothing else. A stage that reads a
 * part it does not name, or comes before one that it needs, does not compile.
 */
import type { Session } from './gather/index.js';
import type { Night } from './model/index.js';
import type { NightPixels } from './stars/index.js';

/** All possible inputs of a stage: the data read, and the results of other stages. */
export interface Parts extends Night {
  readonly session: Session;
  /** Where the frames' pixels are; `null` when they are not to be read. */
  readonly pixels: NightPixels | null;
}

/** What is known before the first stage. */
export type Seed = 'date' | 'span' | 'session' | 'pixels';

/** One stage. */
export interface Stage<Gives extends keyof Night = keyof Night, Needs extends keyof Parts = keyof Parts> {
  readonly gives: Gives;
  readonly needs: readonly Needs[];
  /** @throws Error when a required part is unknown */
  readonly run: (known: Partial<Parts>) => Promise<Partial<Night>>;
}

/** Makes a stage of a function from the parts it needs to the part it gives. */
export function stage<Gives extends keyof Night, const Needs extends keyof Parts>(
  gives: Gives,
  needs: readonly Needs[],
  make: (parts: Pick<Parts, Needs>) => Night[Gives] | Promise<Night[Gives]>,
): Stage<Gives, Needs> {
  return { gives, needs, run: async (known) => partial(gives, await make(pick(known, needs))) };
}

/** The stages themselves if each comes after what it needs; else what the first of the others lacks. */
type InOrder<S extends readonly unknown[], Known = Seed> = S extends readonly [
  Stage<infer Gives, infer Needs>,
  ...infer Rest,
]
  ? [Needs] extends [Known]
    ? InOrder<Rest, Known | Gives>
    : { readonly lacks: Exclude<Needs, Known>; readonly toGive: Gives }
  : unknown;

/** Makes a list of stages. */
export function journey<const S extends readonly Pick<Stage, 'gives' | 'needs' | 'run'>[]>(
  ...stages: S & InOrder<S>
): S {
  return stages;
}

/**
 * Runs the stages on a night. A stage whose part is already known is skipped: a record has most of them, and `null`
 * marks a part that is not requested.
 *
 * @param onStage called after each stage that was run
 * @throws Error when the stages do not make a whole night
 */
export async function follow(
  stages: readonly Stage[],
  seed: Partial<Parts>,
  onStage: () => void = () => {},
): Promise<Night> {
  let known: Partial<Parts> = seed;
  for (const { gives, run } of stages) {
    if (known[gives] !== undefined) continue;
    known = { ...known, ...(await run(known)) };
    onStage();
  }
  return pick(known, NIGHT_PARTS);
}

const NIGHT_PARTS = [
  'date',
  'span',
  'gathered',
  'timeline',
  'sky',
  'stars',
  'accounts',
  'pictures',
  'worth',
  'replay',
  'findings',
] as const satisfies readonly (keyof Night)[];

function partial<K extends keyof Night>(key: K, value: Night[K]): Partial<Night> {
  return { [key]: value };
}

/** The named parts and nothing else. */
function pick<K extends keyof Parts>(known: Partial<Parts>, keys: readonly K[]): Pick<Parts, K> {
  const missing = keys.filter((key) => known[key] === undefined);
  if (missing.length > 0) throw new Error(`parts of the night are not known: ${missing.join(', ')}`);
  return Object.fromEntries(keys.map((key) => [key, known[key]])) as Pick<Parts, K>;
}
