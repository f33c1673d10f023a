/**
 * Asks in the terminal what a kind of line means, for `nightledger dialect draft --ask`.
 */
import type { Answer, Question } from '../log-doctor.js';
import { EVENT_NAMES, eventLabel } from '../model/index.js';

const MAX_WIDTH = 100;

/** Shows examples of a kind of line and offers its possible events, likeliest first. */
export async function askInTerminal({ count, firstLine, examples, nearest, left, beyond }: Question): Promise<Answer> {
  const later = beyond === 0 ? '' : ` and ${beyond} for another walk`;
  const { default: select, Separator } = await import('@inquirer/select');
  const others = [...EVENT_NAMES].filter((event) => !nearest.includes(event)).sort();
  const choice = (event: (typeof EVENT_NAMES)[number]) => ({
    name: `${event}  (${eventLabel(event)})`,
    value: { event } as Answer,
  });
  const asked = select<Answer>({
    message: [
      `${count} line${count === 1 ? '' : 's'} from line ${firstLine} on, ${left} kinds to go${later}. What is this?`,
      ...examples.slice(0, 3).map((example) => `    ${shown(example)}`),
    ].join('\n'),
    pageSize: 14,
    choices: [
      ...nearest.map(choice),
      { name: 'ignore: not needed', value: 'ignore' },
      { name: 'later', value: 'later' },
      { name: 'stop here; the next --ask continues', value: 'stop' },
      new Separator(),
      ...others.map(choice),
    ],
  });
  return asked.catch((error: unknown): Answer => {
    // Ctrl-C: every answer so far is saved, and the next walk continues with this kind.
    if (error instanceof Error && error.name === 'ExitPromptError') return 'stop';
    throw error;
  });
}

/** One line of the report, without control characters. */
function shown(text: string): string {
  const line = text.replace(/\s*\n\s*/g, ' / ').replace(/\p{Cc}/gu, ' ');
  return line.length <= MAX_WIDTH ? line : `${line.slice(0, MAX_WIDTH - 1)}…`;
}
