import { beginOf, type EventName } from '../../../../model/index.js';
import { CLAUSE, ofClauses } from './clauses.js';
import { motionsIn } from './motion-words.js';
import { MOTIONS, type Motion } from './motions.js';
import { BARE, OUTCOMES } from './outcomes.js';
import { holdOutcomes } from './hold-outcomes.js';
import { PARKED, SUSPENDED } from './parked-words.js';
import { plainWords } from './plain-words.js';
import { AGAIN, saidAtOnce } from './said-at-once.js';
import { leavesWait, stateChange } from './state-changes.js';
import { GIVES_UP, withoutAfter, withoutBetween, withoutReason, withoutSequel, withUmlauts } from './main-clause.js';
import { goesOn } from './star-words.js';
import { NOISE, STRONG, subjectStrengths, WEAK, withSource } from './subject-strengths.js';
import { namesOnlyCamera, NOTHING, SUBJECTS, type Subject, type SubjectId } from './subjects.js';
import { cutShort, waitAlone } from './without-subject.js';
import { wordList } from './word-list.js';

/** The outcome of a shutter if only its camera is named. */
const OF_SHUTTER: ReadonlySet<Motion> = new Set(['open', 'close', 'start', 'stop', 'doing', 'abort']);
const ENDED: ReadonlySet<Motion> = new Set(['stop', 'close', 'arrive', 'fail', 'abort', 'did']);
const NAMELESS_SHUTTER = 1;
const NAMELESS_READY = 0.7;
/** `There.`, `Lost it.`, `Stopped halfway.`: the assumed meaning without a subject, if it fits the timeline. */
const NAMELESS: readonly (readonly [Motion, EventName])[] = [
  ['arrive', 'slew-end'],
  ['lose', 'star-gap-begin'],
  ['find', 'star-gap-end'],
  ['abort', 'exposure-abort'],
];
const NAMELESS_OTHER = 0.8;
const NAMELESS_HOLD = 2;
const GIVEN_UP = 1.6;
/** Maximum difference between both sides of a span for a tie. */
const TIE = 0.5;
/** Minimum evidence of the first of several lines. */
const HEAD_SUFFICES = 2;

/**
 * The evidence of a line kind's wording for each event; empty if there is none.
 *
 * @param lead length of the front of the wording that names the device or program component that wrote the lines
 */
export function wordEvidence(wording: string, hints = '', lead = 0): Map<EventName, number> {
  const key = `${lead} ${hints}\0${wording}`;
  let evidence = kept.get(key);
  if (evidence === undefined) {
    if (kept.size >= KEPT) kept.clear();
    evidence = saidBy(wording, hints, lead);
    kept.set(key, evidence);
  }
  return new Map(evidence);
}

/** The evidence for each kind is requested several times: during classification and when rules are written. */
const KEPT = 4000;
const kept = new Map<string, ReadonlyMap<EventName, number>>();

function saidBy(wording: string, hints: string, lead: number): Map<EventName, number> {
  const evidence =
    ofHead(wording, hints, lead) ?? ofClauses(wording, hints, lead, evidenceOf) ?? evidenceOf(wording, hints, lead);
  const [best, next] = [...evidence].sort((a, b) => b[1] - a[1]);
  if (best === undefined || next === undefined || best[1] - next[1] > TIE) return evidence;
  if (beginOf(best[0]) !== next[0] && beginOf(next[0]) !== best[0]) return evidence;
  // `dither finished, go`: the first statement is the subject.
  const [first = '', ...others] = wording.slice(lead).split(CLAUSE);
  if (others.length === 0) return evidence;
  const front = evidenceOf(wording.slice(0, lead) + first, hints, lead);
  const one = front.get(best[0]) ?? 0;
  const other = front.get(next[0]) ?? 0;
  return Math.abs(one - other) <= TIE ? evidence : new Map([...evidence, [best[0], one], [next[0], other]]);
}

/** The evidence of the first of several lines: those below give the result. `null` without evidence. */
function ofHead(wording: string, hints: string, lead: number): Map<EventName, number> | null {
  const end = wording.indexOf('\n', lead);
  if (end < 0) return null;
  const evidence = evidenceOf(wording.slice(0, end), hints, lead);
  return Math.max(...evidence.values()) >= HEAD_SUFFICES ? evidence : null;
}

function evidenceOf(wording: string, hints: string, lead: number): Map<EventName, number> {
  const source = withUmlauts(plainWords(wording.slice(0, lead).replace(/(?<=\p{L})(?=\d)/gu, ' ')));
  const change = stateChange(wording.slice(lead), source);
  if (change !== null && (change.size > 0 || leavesWait(wording.slice(lead)))) return change;
  const message = withoutReason(
    withoutSequel(withoutBetween(withoutAfter(wording.slice(lead)))),
    source !== '' && saidOf(source),
  );
  const words = withUmlauts(plainWords(message));
  if (NOTHING.test(words) && !GIVES_UP.test(words)) return new Map();
  const hintWords = withUmlauts(plainWords(hints));
  const strengths = withSource(subjectStrengths(words, hintWords), source, words);
  // Progress of something irrelevant says little about the rest of the line. `camera, wheel, focuser, mount answer`: a
  // statement about all of them is about none.
  if ([...strengths.keys()].filter(({ id }) => OF_DEVICES.has(id)).length >= ALL_DEVICES) return new Map();
  const namesNoise = names(strengths, 'noise');
  const weight = namesNoise ? 0.3 : 1;
  const motions = motionsIn(message, words);
  const atOnce = saidAtOnce(words, motions, (id) => isNamed(strengths, id));
  if (atOnce !== null) return atOnce;
  const own = cutShort(message, strengths) ?? waitAlone(message, words, motions, strengths);
  if (own !== null) return own;
  const evidence = new Map<EventName, number>();
  // `Shut.`: the log's main shutter needs no name; its neighbours must confirm it.
  if (strengths.size === 0 && hintWords === '' && motions.has('close') !== motions.has('open'))
    evidence.set(motions.has('close') ? 'exposure-end' : 'exposure-begin', NAMELESS_SHUTTER);
  if (strengths.size === 0 && source === '')
    for (const [motion, event] of NAMELESS) if (motions.has(motion)) evidence.set(event, NAMELESS_OTHER);
  // `heron ready`: a train that is ready usually waits for the next dither.
  if (
    (motions.has('ready') || (motions.has('wait') && !message.includes('#'))) &&
    [...strengths.values()].every((strength) => strength < WEAK)
  )
    evidence.set('dither-ready', NAMELESS_READY);
  // `End of the wait, we go on`: it is over, whatever the wait was for.
  if (strengths.size === 0 && motions.has('wait') && motions.has('stop') && motions.has('resume'))
    evidence.set('hold-end', NAMELESS_HOLD);
  const add = (event: EventName, value: number): void => {
    evidence.set(event, Math.max(evidence.get(event) ?? 0, value));
  };
  const givesUp =
    GIVES_UP.test(words) && [...strengths].some(([{ id }, value]) => id === 'settling' && value >= STRONG);
  const waitsForCalm = motions.has('wait') && isNamed(strengths, 'settling');
  const isFocus = isNamed(strengths, 'focus');
  const isGuided = [...strengths].some(([{ id }, strength]) => id === 'guiding' && strength >= STRONG);
  const isLoss = LOSS.test(words) && motions.has('lose') && isNamed(strengths, 'star') && !goesOn(words);
  const isFirstStar = motions.has('find') && motions.has('start') && goesOn(source);
  for (const [subject, strength] of strengths) {
    if (subject.id === 'noise') continue;
    if (givesUp) {
      if (subject.id === 'settling') add('settling-end', strength + GIVEN_UP);
      continue;
    }
    // `guider hold`: a star is held, or guiding is paused, not the night.
    if (subject.id === 'hold' && names(strengths, 'guiding') && !subject.strong.test(words.replace(HELD, ' ')))
      continue;
    if (subject.id === 'hold') {
      for (const [event, value] of holdOutcomes(words, motions)) add(event, strength + value * weight);
      continue;
    }
    if (subject.id === 'frame' && !motions.has('fail')) add('frame-saved', strength + 0.8);
    // Degrees next to humidity are those of the air.
    if (subject.id === 'cooler' && (strength >= STRONG - NOISE || !namesNoise)) add('cooler', strength);
    // `Pause of the guiding over`: guiding resumes.
    if (subject.id === 'guiding' && motions.has('pause') && motions.has('stop') && !motions.has('start')) {
      add('guiding-rest-end', strength + 1.9);
      add('guiding-rest-begin', strength + 0.5);
      continue;
    }
    // `Pause of the guiding begins`: the pause does.
    if (subject.id === 'guiding' && motions.has('pause') && motions.has('start') && !motions.has('resume')) {
      add('guiding-rest-begin', strength + 1.7);
      add('guiding-begin', strength + 0.2);
      continue;
    }
    // `Guide star loss ended` is only about the star.
    if (subject.id === 'guiding' && isLoss) continue;
    // `Star lost: end`: the loss is over.
    if (subject.id === 'star' && motions.has('lose') && (isLoss || MOTIONS.stop.test(words.split(' ').at(-1) ?? ''))) {
      const isOver = !motions.has('start') && motions.has('stop') && (isLoss || strengths.size === 1);
      add(isOver ? 'star-gap-end' : 'star-gap-begin', strength + 1.6 * weight);
      continue;
    }
    // `Exposures suspended`, `work goes on, pause over`: holds, whatever the reason.
    const isWork = subject.id === 'session' || (subject.id === 'exposure' && !namesOnlyCamera(subject, words));
    if (isWork && SUSPENDED.test(words) && !motions.has('fail') && !motions.has('abort')) {
      const isOver = motions.has('stop') || motions.has('resume');
      add(isOver ? 'hold-end' : 'hold-begin', strength + 1.6 * weight);
      continue;
    }
    const isOnlyCamera = subject.id === 'exposure' && namesOnlyCamera(subject, `${source} ${words}`);
    const outcomes = Object.entries(OUTCOMES[subject.id]) as [Motion, readonly [EventName, number]][];
    const failed = outcomes.some(([motion]) => (motion === 'fail' || motion === 'abort') && motions.has(motion));
    // `Centring on M 33 finished`: the end counts, not the progress.
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
    // `Guiding on a star off`, `Focus done, stars 2.1 px`: the star is an object of guiding, or focusing.
    if (subject.id === 'star' && (isGuided || isFocus) && !motions.has('lose') && !motions.has('find')) continue;
    for (const [motion, [event, value]] of moved) {
      // A camera that is connected again has exposed nothing.
      if (isOnlyCamera && !OF_SHUTTER.has(motion)) continue;
      // Nor has one that is ready.
      if (isOnlyCamera && motion === 'stop' && motions.has('ready') && !MOTIONS.stop.test(words)) continue;
      if (event === 'star-gap-end' && isFirstStar && !AGAIN.test(words)) continue;
      add(event, strength + (ended && motion === 'doing' ? 0 : value * weight));
    }
    // `Guiding runs again`: after a pause, or restarted.
    if (subject.id === 'guiding' && motions.has('start') && AGAIN.test(words)) add('guiding-rest-end', strength + 1.2);
    // `Guiding again`: a star is back, or guiding was paused.
    if (subject.id === 'guiding' && motions.has('find') && !isNamed(strengths, 'star'))
      add('guiding-rest-end', strength + 1.2);
    // `Found a guide star, guiding now`: the first star; the sequel shows it.
    if (subject.id === 'star' && motions.has('find') && goesOn(words)) add('guiding-begin', strength + 1.2);
    // `guider: started, star found`
    if (subject.id === 'star' && isFirstStar) add('guiding-begin', strength + 2.2);
    if (moved.length === 0 && !failed && !isOnlyCamera)
      for (const [event, value] of BARE[subject.id]) add(event, strength * 0.7 + value);
  }
  // A mount being parked does not slew to a target.
  if (PARKED.test(words)) for (const event of ['slew-begin', 'slew-end'] as const) evidence.delete(event);
  return evidence;
}

/** The noun: it has a begin and an end. */
const LOSS = wordList(
  'loss losses *verlust perte pertes perdita perdida perda verlies utrata utraty strata straty ztrata ztraty 喪失',
);
const OF_DEVICES: ReadonlySet<SubjectId> = new Set(['exposure', 'filter', 'focus', 'slew', 'guiding', 'cooler']);
const ALL_DEVICES = 4;
const HELD = /\bhold(?:s|ing)?\b/gu;

/** Whether words name a subject, or its device. */
function names(strengths: ReadonlyMap<Subject, number>, wanted: SubjectId): boolean {
  return [...strengths.keys()].some(({ id }) => id === wanted);
}

/** Whether words name a subject explicitly. */
function isNamed(strengths: ReadonlyMap<Subject, number>, wanted: SubjectId): boolean {
  return [...strengths].some(([{ id }, value]) => id === wanted && value >= STRONG - NOISE);
}

const EACH_DOING = MOTIONS.doing.expression('gu');

/** Whether this subject is in progress: `stable after dithering` is about a dither in progress, not about settling. */
function isDone(subject: Subject, words: string): boolean {
  const doing = [...words.matchAll(EACH_DOING)].map(([word]) => word);
  return (
    doing.length === 0 ||
    doing.some(
      (word) => subject.strong.test(word) || !SUBJECTS.some(({ id, strong }) => id !== 'noise' && strong.test(word)),
    )
  );
}

/** Whether words name a possible subject. */
function saidOf(words: string): boolean {
  return SUBJECTS.some(({ id, strong, weak }) => id !== 'noise' && (strong.test(words) || weak.test(words)));
}
