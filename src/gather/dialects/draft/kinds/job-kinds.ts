import { groupBy } from '../../../../model/index.js';
import { compilePattern } from '../../pattern/pattern.js';
import { ABOUT, Jobs } from '../../jobs.js';
import { isSubject } from '../lexicon/said.js';
import type { JobsDraft } from '../reading/jobs.js';
import { TemplateTree, type Template } from '../template-tree.js';
import type { Kind } from './kind.js';
import { countedLetters } from './numbered-words.js';
import { textKinds, type Message } from './text-kinds.js';

/**
 * The kinds of message in a log with numbered jobs: those that name a job by its number are told apart by what the job
 * is about. Messages that only place an order, or announce a job, are no kind.
 */
export function jobKinds(messages: readonly Message[], draft: JobsDraft, decimalComma: boolean): Kind[] {
  const begin = compilePattern(draft.begin, false);
  const jobs = new Jobs({ begin, later: compilePattern(draft.later, false) });
  const abouts = new TemplateTree(decimalComma, new Set());
  const letters = countedLetters(messages.map(({ text }) => text));
  const about: { readonly message: Message; readonly template: Template | null }[] = [];
  const plain: Message[] = [];
  for (const message of messages) {
    const text = jobs.take(message.text);
    const isFirst = begin.exec(message.text) !== null;
    if (text !== message.text)
      about.push({
        message: { ...message, text },
        template: abouts.add(text.slice(message.text.length).trim(), message.line),
      });
    else if (isFirst ? !draft.isOrder : !isAnnounced(message.text, draft)) plain.push(message);
  }
  const groups = groupBy(about, ({ template }) => template);
  return [
    ...textKinds(plain, decimalComma, letters),
    ...[...groups.values()].flatMap((own) =>
      textKinds(
        own.map(({ message }) => message),
        decimalComma,
        letters,
      ).map(withHints),
    ),
  ].sort((a, b) => b.count - a.count || a.firstLine - b.firstLine);
}

/** Whether a message only announces a job: it has a number behind what such messages begin with. */
function isAnnounced(text: string, { announced }: JobsDraft): boolean {
  return announced.some((prefix) => text.startsWith(prefix) && /^\d/.test(text.slice(prefix.length)));
}

/** Where a message says by itself what has happened, what its job is about only hints, as a source in front does. */
function withHints(kind: Kind): Kind {
  const [own = '', ...rest] = kind.wording.split(ABOUT);
  if (rest.length === 0 || !(isSubject(own) || kind.slots.some(({ type }) => type === 'file'))) return kind;
  const about = rest.join(ABOUT);
  return { ...kind, wording: `${about} ${own}`, lead: about.length + 1, hints: `${kind.hints} ${about}`.trim() };
}
