import { beginOf, type EventName } from '../../../../model/index.js';
import { besideStillness, CLAUSE } from './clauses.js';
import { motionsIn } from './motion-words.js';
import { MOTIONS, type Motion } from './motions.js';
import { saysMotion } from './said.js';
import { BARE, OUTCOMES } from './outcomes.js';
import { holdOutcomes } from './hold-outcomes.js';
import { PARKED, SUSPENDED } from './parked-words.js';
import { plainWords } from './plain-words.js';
import { AGAIN, saidAtOnce } from './said-at-once.js';
import { leavesWait, stateChange } from './state-changes.js';
import { GIVES_UP, withoutBetween, withoutReason, withUmlauts } from './told-part.js';
import { goesOn } from './star-words.js';
import { namesOnlyCamera, NOTHING, SUBJECTS, type Subject, type SubjectId } from './subjects.js';

/** What becomes of a shutter, where only its camera is named. */
const OF_SHUTTER: ReadonlySet<Motion> = new Set(['open', 'close', 'start', 'stop', 'doing', 'abort']);
const ENDED: ReadonlySet<Motion> = new Set(['stop', 'close', 'arrive', 'fail', 'abort', 'did']);
const NAMELESS_SHUTTER = 1;
const NAMELESS_READY = 0.7;
/** `There.`, `Lost it.`, `Stopped halfway.`: what is meant where nothing is named, if it fits the night. */
const NAMELESS: readonly (readonly [Motion, EventName])[] = [
  ['arrive', 'slew-end'],
  ['lose', 'star-gap-begin'],
  ['find', 'star-gap-end'],
  ['abort', 'exposure-abort'],
];
const NAMELESS_OTHER = 0.8;
const STRONG = 2.4;
const WEAK = 1.2;
const HINT = 0.7;
const FIRST_NAMED = 0.4;
const GIVEN_UP = 1.6;
/** What the device that wrote a line says of it, where the line only says what becomes of it. */
const FROM_SOURCE = 2.2;
/** And where the line names something of its own. */
const BESIDE = 1.2;
/** Of several subjects, the one that is named seldom says more than the device that does many things. */
const SPECIFIC: Readonly<Partial<Record<SubjectId, number>>> = {
  settling: 0.6,
  dither: 0.6,
  star: 0.55,
  flip: 0.5,
  centre: 0.4,
  focus: 0.15,
  hold: 0.1,
};
/** What a line about nothing that counts loses on everything else. */
const NOISE = 1.6;
/** Both sides of a thing this near to each other are a tie. */
const TIE = 0.5;

/**
 * How much the wording of a kind of line speaks for each event; nothing where it says nothing.
 *
 * @param lead how much of the wording, from its front, names the device or the part of the program that wrote the lines
 */
export function wordEvidence(wording: string, hints = '', lead = 0): Map<EventName, number> {
  const evidence = besideStillness(wording, hints, lead, evidenceOf) ?? evidenceOf(wording, hints, lead);
  const [best, next] = [...evidence].sort((a, b) => b[1] - a[1]);
  if (best === undefined || next === undefined || best[1] - next[1] > TIE) return evidence;
  if (beginOf(best[0]) !== next[0] && beginOf(next[0]) !== best[0]) return evidence;
  // `dither finished, go`: what the line says first is what it is about.
  const [first = '', ...others] = wording.slice(lead).split(CLAUSE);
  if (others.length === 0) return evidence;
  const told = evidenceOf(wording.slice(0, lead) + first, hints, lead);
  const one = told.get(best[0]) ?? 0;
  const other = told.get(next[0]) ?? 0;
  return Math.abs(one - other) <= TIE ? evidence : new Map([...evidence, [best[0], one], [next[0], other]]);
}

function evidenceOf(wording: string, hints: string, lead: number): Map<EventName, number> {
  const source = withUmlauts(plainWords(wording.slice(0, lead).replace(/(?<=\p{L})(?=\d)/gu, ' ')));
  const change = stateChange(wording.slice(lead), source);
  if (change !== null && (change.size > 0 || leavesWait(wording.slice(lead)))) return change;
  const told = withoutReason(withoutBetween(wording.slice(lead)), source !== '' && saidOf(source));
  const words = withUmlauts(plainWords(told));
  if (NOTHING.test(words) && !GIVES_UP.test(words)) return new Map();
  const hintWords = withUmlauts(plainWords(hints));
  const strengths = withSource(subjectStrengths(words, hintWords), source, words);
  // What goes on with something that does not count says little about the rest of the line.
  const namesNoise = [...strengths.keys()].some(({ id }) => id === 'noise');
  const weight = namesNoise ? 0.3 : 1;
  const motions = motionsIn(told, words);
  const atOnce = saidAtOnce(words, motions, (id) => isNamed(strengths, id));
  if (atOnce !== null) return atOnce;
  const evidence = new Map<EventName, number>();
  // `Shut.`: the log's main shutter needs no name; its neighbours must bear it out.
  if (strengths.size === 0 && hintWords === '' && motions.has('close') !== motions.has('open'))
    evidence.set(motions.has('close') ? 'exposure-end' : 'exposure-begin', NAMELESS_SHUTTER);
  if (strengths.size === 0 && source === '')
    for (const [motion, event] of NAMELESS) if (motions.has(motion)) evidence.set(event, NAMELESS_OTHER);
  // `heron ready`: what may go on now waits for the next dither, mostly.
  if (
    (motions.has('ready') || (motions.has('wait') && !told.includes('#'))) &&
    [...strengths.values()].every((strength) => strength < WEAK)
  )
    evidence.set('dither-ready', NAMELESS_READY);
  const add = (event: EventName, value: number): void => {
    evidence.set(event, Math.max(evidence.get(event) ?? 0, value));
  };
  const givesUp =
    GIVES_UP.test(words) && [...strengths].some(([{ id }, value]) => id === 'settling' && value >= STRONG);
  const waitsForCalm = motions.has('wait') && isNamed(strengths, 'settling');
  const isGuided = [...strengths].some(([{ id }, strength]) => id === 'guiding' && strength >= STRONG);
  for (const [subject, strength] of strengths) {
    if (subject.id === 'noise') continue;
    if (givesUp) {
      if (subject.id === 'settling') add('settling-end', strength + GIVEN_UP);
      continue;
    }
    if (subject.id === 'hold') {
      for (const [event, value] of holdOutcomes(words, motions)) add(event, strength + value * weight);
      continue;
    }
    if (subject.id === 'frame' && !motions.has('fail')) add('frame-saved', strength + 0.8);
    // Degrees beside humidity are those of the air.
    if (subject.id === 'cooler' && (strength >= STRONG - NOISE || !namesNoise)) add('cooler', strength);
    // `Pause of the guiding over`: it goes on.
    if (subject.id === 'guiding' && motions.has('pause') && motions.has('stop') && !motions.has('start')) {
      add('guiding-rest-end', strength + 1.9);
      add('guiding-rest-begin', strength + 0.5);
      continue;
    }
    // `Exposures suspended`, `work goes on, pause over`: what holds the night up, whatever it is for.
    const isWork = subject.id === 'session' || (subject.id === 'exposure' && !namesOnlyCamera(subject, words));
    if (isWork && SUSPENDED.test(words) && !motions.has('fail') && !motions.has('abort')) {
      const isOver = motions.has('stop') || motions.has('resume');
      add(isOver ? 'hold-end' : 'hold-begin', strength + 1.6 * weight);
      continue;
    }
    const isOnlyCamera = subject.id === 'exposure' && namesOnlyCamera(subject, `${source} ${words}`);
    const outcomes = Object.entries(OUTCOMES[subject.id]) as [Motion, readonly [EventName, number]][];
    const failed = outcomes.some(([motion]) => (motion === 'fail' || motion === 'abort') && motions.has(motion));
    // `Centring on M 33 finished`: the end counts, not that it was going on.
    const ended = outcomes.some(([motion]) => motions.has(motion) && (ENDED.has(motion) || motion === 'ready'));
    const moved = outcomes.filter(
      ([motion]) =>
        motions.has(motion) &&
        // `Waiting for the guiding to settle after the dither`
        !(subject.id === 'dither' && motion === 'wait' && waitsForCalm) &&
        // `Moved, waiting for it to settle`
        !(subject.id === 'settling' && (motion === 'did' || motion === 'arrive') && waitsForCalm) &&
        (!failed || motion === 'fail' || motion === 'abort') &&
        (motion !== 'doing' || isDone(subject, words)),
    );
    // `No star in the field`: nothing is found.
    if (subject.id === 'star' && motions.has('fail') && !motions.has('lose')) continue;
    // `Guiding on a star off`: the star is what the guiding is about.
    if (subject.id === 'star' && isGuided && !motions.has('lose') && !motions.has('find')) continue;
    for (const [motion, [event, value]] of moved) {
      // A camera that is there again has exposed nothing.
      if (isOnlyCamera && !OF_SHUTTER.has(motion)) continue;
      add(event, strength + (ended && motion === 'doing' ? 0 : value * weight));
    }
    // `Guiding runs again`: after a rest, or anew.
    if (subject.id === 'guiding' && motions.has('start') && AGAIN.test(words)) add('guiding-rest-end', strength + 1.2);
    // `Guiding again`: a star is back, or the guiding has rested.
    if (subject.id === 'guiding' && motions.has('find') && !isNamed(strengths, 'star'))
      add('guiding-rest-end', strength + 1.2);
    // `Found a guide star, guiding now`: the first star; what follows tells.
    if (subject.id === 'star' && motions.has('find') && goesOn(words)) add('guiding-begin', strength + 1.2);
    // `guider: started, star found`
    if (subject.id === 'star' && motions.has('find') && motions.has('start') && goesOn(source))
      add('guiding-begin', strength + 2.2);
    if (moved.length === 0 && !failed && !isOnlyCamera)
      for (const [event, value] of BARE[subject.id]) add(event, strength * 0.7 + value);
  }
  // A mount that is put to bed is on its way to no target.
  if (PARKED.test(words)) for (const event of ['slew-begin', 'slew-end'] as const) evidence.delete(event);
  return evidence;
}

/** Whether words name a subject outright. */
function isNamed(strengths: ReadonlyMap<Subject, number>, wanted: SubjectId): boolean {
  return [...strengths].some(([{ id }, value]) => id === wanted && value >= STRONG - NOISE);
}

const EACH_DOING = new RegExp(MOTIONS.doing.source, 'gu');

/** Whether it is this that goes on: `stable after dithering` is about a dither that has gone on, and no settling. */
function isDone(subject: Subject, words: string): boolean {
  const doing = [...words.matchAll(EACH_DOING)].map(([word]) => word);
  return (
    doing.length === 0 ||
    doing.some(
      (word) => subject.strong.test(word) || !SUBJECTS.some(({ id, strong }) => id !== 'noise' && strong.test(word)),
    )
  );
}

/** Whether words name what a line may be about. */
function saidOf(words: string): boolean {
  return SUBJECTS.some(({ id, strong, weak }) => id !== 'noise' && (strong.test(words) || weak.test(words)));
}

function subjectStrengths(words: string, hintWords: string): Map<Subject, number> {
  const strengths = new Map<Subject, number>();
  let first: Subject | null = null;
  let firstIndex = Infinity;
  let noise = 0;
  for (const subject of SUBJECTS) {
    const strong = subject.strong.exec(words);
    const strength =
      strong !== null
        ? STRONG
        : subject.weak.test(words)
          ? WEAK
          : subject.strong.test(hintWords)
            ? HINT
            : subject.weak.test(hintWords)
              ? HINT / 2
              : 0;
    if (subject.id === 'noise') noise = strength >= STRONG ? NOISE : strength >= WEAK ? NOISE / 4 : 0;
    if (subject.id === 'noise' && noise === NOISE) strengths.set(subject, 0);
    if (strength === 0 || subject.id === 'noise') continue;
    strengths.set(subject, strength >= STRONG ? strength + (SPECIFIC[subject.id] ?? 0) : strength);
    if (strong !== null && strong.index < firstIndex) [first, firstIndex] = [subject, strong.index];
  }
  if (first !== null) strengths.set(first, (strengths.get(first) ?? 0) + FIRST_NAMED);
  for (const [subject, strength] of strengths) strengths.set(subject, Math.max(0, strength - noise));
  return strengths;
}

/**
 * What a line is about, with the device that wrote it: where the line names nothing itself, the device does; else it
 * only bears it out.
 */
function withSource(said: Map<Subject, number>, source: string, words: string): Map<Subject, number> {
  if (source === '') return said;
  const own = subjectStrengths(source, '');
  const isSaid = [...said].some(([{ id }, strength]) => id !== 'noise' && strength >= STRONG - NOISE);
  const moves = saysMotion(words);
  const strengths = new Map(said);
  for (const [subject, strength] of own) {
    const before = said.get(subject);
    if (subject.id === 'noise') {
      strengths.set(subject, 0);
      for (const [other, value] of said) strengths.set(other, Math.max(0, value - NOISE));
    } else if (before !== undefined)
      strengths.set(subject, Math.max(before + HINT / 2, subject.id === 'cooler' ? strength : 0));
    else if (strength < STRONG) strengths.set(subject, moves && !isSaid ? WEAK : HINT / 2);
    // A cooler states what it is asked for and what it has reached: nothing becomes of it.
    else if (subject.id === 'cooler') strengths.set(subject, strength);
    else strengths.set(subject, isSaid ? BESIDE : moves ? FROM_SOURCE : HINT);
  }
  return strengths;
}
