import { beginOf, type EventName } from '../../../../src/model/index.js';
import { seeded, type Random } from '../../../support/generator/random.js';
import { randomStyle } from './clocks.js';
import type { Language } from './languages.js';
import { REST } from './languages-rest.js';
import { WEST } from './languages-west.js';
import { randomLayout, type Words } from './layouts.js';
import { MadeUpWords } from './made-up.js';
import { inventedNight, pick, type Happening } from './night.js';

/** A log in a format that chance has made, and what it tells. */
export interface InventedLog {
  readonly name: string;
  /** Layout, clock and language, for the table. */
  readonly made: string;
  readonly text: string;
  readonly truth: readonly { readonly at: string; readonly event: EventName; readonly [fact: string]: unknown }[];
}

const LANGUAGES: readonly Language[] = [...WEST, ...REST];
/** Events that many programs never log, and how often. */
const UNTOLD: Readonly<Partial<Record<Happening['event'], number>>> = {
  'dither-end': 0.35,
  'settling-begin': 0.25,
  'filter-begin': 0.2,
  'slew-end': 0.15,
  'centre-begin': 0.2,
  'guiding-rest-begin': 0.3,
  'exposure-end': 0.12,
  'frame-saved': 0.1,
  cooler: 0.3,
  chatter: 0.2,
};

/**
 * A log of a random night, its layout, clock, language and wordings by chance.
 *
 * @param madeUp share of the words in place of which others are made up, which stand in no lexicon
 */
export function inventedLog(seed: number, madeUp: number): InventedLog {
  const random = seeded(seed);
  const language = pick(LANGUAGES, random);
  const words = new RandomWords(language, random, madeUp);
  const layout = randomLayout(language, random, words);
  const unreported = new Set(
    Object.entries(UNTOLD).flatMap(([event, share]) => (random.next() < share ? [event] : [])),
  );
  if (unreported.has('exposure-end')) unreported.delete('frame-saved');
  // What a log leaves out on both sides is nowhere; the pause has two sides or none.
  if (unreported.has('guiding-rest-begin')) unreported.add('guiding-rest-end');
  const reported = inventedNight(seed * 7 + 1).filter(({ event }) => !unreported.has(event));
  const startMs = reported[0]?.atMs ?? 0;
  const made = new MadeUpWords(random, madeUp);
  const heads = {
    base: language.base.map((line) => made.in(line)),
    evening: language.evening.map((line) => made.in(line)),
  };
  const style = randomStyle(startMs, heads, random, language.decimalComma);
  const lines: string[] = [...style.head, ...layout.head];
  const truth: InventedLog['truth'][number][] = [];
  for (const happening of reported) {
    if (layout.print('', happening, words) === null) continue;
    const before = style.before(happening.atMs);
    const line = layout.print(style.stamp(happening.atMs), happening, words);
    lines.push(...before, line ?? '');
    const { event, facts, atMs } = happening;
    if (event === 'chatter') continue;
    truth.push({
      at: new Date(atMs).toISOString(),
      event,
      ...(event === 'exposure-begin' ? { seconds: facts.seconds } : {}),
    });
  }
  return {
    name: `made${seed}${style.nameSuffix}.${layout.extension}`,
    made: `${layout.id} ${style.id} ${LANGUAGES.indexOf(language)}`,
    text: `${lines.join('\n')}\n`,
    truth,
  };
}

class RandomWords implements Words {
  private readonly chosen = new Map<string, readonly string[]>();
  private readonly madeUp: MadeUpWords;

  constructor(
    private readonly language: Language,
    private readonly random: Random,
    share: number,
  ) {
    this.madeUp = new MadeUpWords(random, share);
  }

  message({ event, facts }: Happening): string {
    const wordings = this.wordings(event);
    const sizes: Record<string, unknown> = {
      ...facts,
      filter: facts.filter ?? facts.to,
      before: facts.sizeBefore,
      after: facts.sizeAfter,
      temp: facts.temperature,
      wanted: facts.setpoint,
    };
    return pick(wordings, this.random).replace(/\{(\w+)\}/g, (_, name: string) => {
      const value = sizes[name];
      return typeof value === 'number' ? this.number(value) : String(value ?? '');
    });
  }

  subject(subject: Parameters<Words['subject']>[0]): string {
    return this.madeUp.in(this.language.subjects[subject]);
  }

  phase(phase: Parameters<Words['phase']>[0]): string {
    return this.madeUp.in(this.language.phases[phase]);
  }

  field(index: number): string {
    return this.madeUp.in(this.language.fields[index] ?? `field${index}`);
  }

  private number(value: number): string {
    return this.language.decimalComma ? String(value).replace('.', ',') : String(value);
  }

  /** One or two wordings of an event; chatter has all. */
  private wordings(event: Happening['event']): readonly string[] {
    const known = this.chosen.get(event);
    if (known !== undefined) return known;
    const all = this.language.phrases[event] ?? [event];
    const single = event !== 'chatter' && (this.random.next() < 0.7 || beginOf(event as EventName) === undefined);
    const own = (single ? [pick(all, this.random)] : all).map((one) => this.madeUp.in(one));
    this.chosen.set(event, own);
    return own;
  }
}
