import { duration, type DarkWindow } from '../../../model/index.js';
import type { ViewContext } from './context.js';

/** A stretch of the headline; quantities are set in heavier figures and never broken. */
export interface Phrase {
  readonly text: string;
  readonly quantity?: boolean;
  /** Set as the words around it, and never broken. */
  readonly firm?: boolean;
}

const MINUTE = 60_000;
const COUNT_WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

const say = (text: string): Phrase => ({ text });
const quantity = (text: string): Phrase => ({ text, quantity: true });

function darkness(window: DarkWindow | undefined, windowMs: number): Phrase[] {
  if (window === undefined) return [quantity(duration(windowMs)), say(' from the first exposure to the last')];
  if (window.kind === 'sun-minimum')
    return [say('No darkness on this night; '), quantity(duration(windowMs)), say(' about the Sun’s lowest point')];
  if (window.kind === 'sunset') return [quantity(duration(windowMs)), say(' from sunset to sunrise')];
  return [quantity(duration(windowMs)), say(' of dark')];
}

function kept({ night, worth }: ViewContext): Phrase[] {
  const names = night.gathered.trains.map((train) => train.id);
  const who =
    names.length === 1
      ? (names[0] ?? '')
      : names.length === 2
        ? 'both trains together'
        : `the ${COUNT_WORDS[names.length] ?? String(names.length)} trains together`;
  if (worth.frames.taken === 0) return [say('no light was taken')];
  if (worth.integrationMs.kept === 0) return [say(`no frame of the ${worth.frames.taken} taken could be kept`)];
  return [say(`${who} kept `), quantity(duration(worth.integrationMs.kept))];
}

function waiting({ worth, night }: ViewContext): Phrase[] {
  if (night.gathered.trains.length < 2 || worth.waitingMs < MINUTE) return [];
  const main = worth.held[0];
  const phrases = [quantity(duration(worth.waitingMs)), say(' went into waiting')];
  if (main === undefined || main.ms < MINUTE) return phrases;
  const heldMs = Math.min(main.ms, worth.waitingMs);
  return [
    ...phrases,
    say(', of which '),
    quantity(duration(heldMs)),
    say(` because ${main.holder}’s last sub was still open`),
  ];
}

function harmed({ worth }: ViewContext): Phrase[] {
  const { doubtful, lost } = worth.integrationMs;
  if (lost === 0 && doubtful === 0) return [];
  const firm = (ms: number): Phrase => ({ text: duration(ms), firm: true });
  return [
    ...(lost > 0 ? [firm(lost), say(' was lost')] : []),
    ...(lost > 0 && doubtful > 0 ? [say(' and ')] : []),
    ...(doubtful > 0 ? [firm(doubtful), say(' is doubtful')] : []),
  ];
}

/** The night in one sentence, every word of it from the data. */
export function headline(context: ViewContext): Phrase[] {
  const clauses = [
    darkness(context.night.sky.almanac?.window, context.worth.windowMs),
    kept(context),
    waiting(context),
    harmed(context),
  ].filter((clause) => clause.length > 0);
  return clauses.flatMap((clause, index) => (index === 0 ? clause : [say('; '), ...clause])).concat(say('.'));
}

/** The headline as plain text. */
export function headlineText(context: ViewContext): string {
  return headline(context)
    .map((phrase) => phrase.text)
    .join('');
}
