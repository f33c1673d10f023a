import { groupBy } from '../../../../model/index.js';
import { compilePattern } from '../../pattern/pattern.js';
import { ABOUT, Jobs } from '../../jobs.js';
import { cutsShort, endsSomething, isSubject } from '../lexicon/said.js';
import type { JobsDraft } from '../reading/jobs.js';
import { TemplateTree, type Template } from '../template-tree.js';
import { commonestFirst, type Kind, type Slot } from './kind.js';
import { countedLetters } from './numbered-words.js';
import { textKinds, type Message } from './text-kinds.js';

/**
 * The kinds of message in a log with numbered jobs: messages that refer to a job by number are distinguished by the
 * job's subject. Messages that only queue or announce a job are not a kind.
 */
export function jobKinds(messages: readonly Message[], draft: JobsDraft, decimalComma: boolean): Kind[] {
  const begin = compilePattern(draft.begin, false);
  const jobs = new Jobs({ begin, later: compilePattern(draft.later, false) });
  const abouts = new TemplateTree(decimalComma, new Set());
  const letters = countedLetters(messages.map(({ text }) => text));
  const about: { readonly message: Message; readonly template: Template | null }[] = [];
  const plain: Message[] = [];
  const firsts: Message[] = [];
  const announced = draft.announced.map((pattern) => compilePattern(pattern, false));
  for (const message of messages) {
    const text = jobs.take(message.text);
    const isFirst = begin.exec(message.text) !== null;
    if (text !== message.text)
      about.push({
        message: { ...message, text },
        template: abouts.add(text.slice(message.text.length).trim(), message.line),
      });
    else if (isFirst) firsts.push(message);
    else if (!announced.some((one) => one.exec(message.text) !== null)) plain.push(message);
  }
  const groups = groupBy(about, ({ template }) => template);
  return [
    ...textKinds(plain, decimalComma, letters),
    ...(draft.isOrder
      ? []
      : textKinds(firsts, decimalComma, letters).map((kind): Kind => ({ ...kind, ofJob: { part: 'begun' } }))),
    ...[...groups.values()].flatMap((own) =>
      textKinds(
        own.map(({ message }) => message),
        decimalComma,
        letters,
      ).map((kind) => withHints(withEarlier({ ...kind, ofJob: { part: 'later' } }), draft.isResult)),
    ),
  ].sort(commonestFirst);
}

/** The kind with its values marked that were stated when the job was introduced. */
function withEarlier(kind: Kind): Kind {
  const own = kind.summary.split(ABOUT)[0]?.match(PLACE)?.length ?? 0;
  if (kind.slots.length !== kind.summary.match(PLACE)?.length) return kind;
  const originals = new Map(
    kind.slots.map((slot, i): [Slot, Slot] => [i < own ? slot : { ...slot, isEarlier: true }, slot]),
  );
  return {
    ...kind,
    slots: [...originals.keys()],
    when: (groups) => kind.when(new Map([...groups].map(([slot, name]) => [originals.get(slot) ?? slot, name]))),
  };
}

/** A position in the summary of a kind. */
const PLACE = /…/g;

/** If a message says by itself what happened, the job's subject is only a hint, like a source. */
function withHints(kind: Kind, isResult: boolean): Kind {
  const [own = '', ...rest] = kind.wording.split(ABOUT);
  // `cut 17: no star`: the first words report the end of a job, the rest gives the reason or result.
  const [before = ''] = own.split('#');
  const [, behind = ''] = /^([^#]*#\W*\p{L}+)/u.exec(own) ?? [];
  const fronts = [before, behind.replace('#', ' '), own.replace('#', ' ')];
  const front = fronts.find((one) => endsSomething(one) && !isSubject(one));
  if (rest.length > 0 && front !== undefined) {
    // A gap like that between columns would set off the name of a device.
    const about = rest.join(ABOUT).replace(/\s+/g, ' ');
    const part = cutsShort(front) ? 'cut' : 'over';
    return { ...kind, wording: `${front.trim()} ${about}`, ofJob: { part, about } };
  }
  if (rest.length === 0) return kind;
  const about = rest.join(ABOUT);
  // `#17 east -> fine`: the only message that returns to a job reports how it ended, in whatever words.
  const finished: Kind = isResult ? { ...kind, ofJob: { part: 'over', about: about.replace(/\s+/g, ' ') } } : kind;
  // A word alone, `paused`, is of the job's subject: a dash between them would make two clauses of them.
  if (!(isSubject(own) || kind.slots.some(({ type }) => type === 'file')))
    return { ...finished, wording: `${own.trim()} ${about}` };
  return { ...finished, wording: `${about} ${own}`, lead: about.length + 1, hints: `${kind.hints} ${about}`.trim() };
}
