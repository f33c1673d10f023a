import type { Template } from '../template-tree.js';
import type { Segment, Slot } from './kind.js';

/** Marks that begin a segment, and those that end one. */
const CLEAR: ReadonlySet<string> = new Set([':', '(', '（', '：']);
const BEGINS: ReadonlySet<string> = new Set([...CLEAR, ';', '—', '–']);
const ENDS: ReadonlySet<string> = new Set([';', ')', '）', '.', ',', '—', '–', '|', '。']);
/** A longer one is a sentence of its own. */
const MOST_TOKENS = 9;

/** A segment and the tokens that it spans. */
export interface Spanned {
  readonly segment: Segment;
  readonly first: number;
  readonly last: number;
}

/**
 * The parts of a template behind a colon, a semicolon or a dash, in brackets, or in its last column, that consist of
 * words: whether they vary or all lines of a kind happen to say the same.
 *
 * @param textOf the text of a range of tokens in each line
 * @param slots the slots of the template by their first token
 */
export function segmentsOf(
  template: Template,
  textOf: (first: number, last: number) => readonly string[],
  slots: ReadonlyMap<Slot, number>,
): Spanned[] {
  const { tokens } = template;
  const found: Spanned[] = [];
  for (let i = 1; i < tokens.length; i++) {
    const mark = tokens[i];
    const isMark = typeof mark === 'string' && BEGINS.has(mark) && i + 1 < tokens.length;
    // A column of its own behind all others; behind a value of several words nothing tells where it begins.
    const isApart = template.gaps[i] === 'blanks' || template.gaps[i] === 'wide';
    const isColumn = !isMark && i > 1 && isApart && typeof tokens[i - 1] === 'string';
    // `heron:camera`
    if (isMark ? mark === ':' && template.gaps[i + 1] === '' : !isColumn) continue;
    const first = isMark ? i + 1 : i;
    let last = first;
    while (last + 1 < tokens.length && !endsAt(template, last + 1)) last++;
    if (isColumn && last + 1 < tokens.length) continue;
    const texts = textOf(first, last);
    if (last - first >= MOST_TOKENS || !texts.every((text) => /^\p{L}[\p{L}\s'’-]*$/u.test(text))) continue;
    const within = [...slots].flatMap(([slot, at]) => (at >= first && at <= last ? [slot] : []));
    found.push({
      first,
      last,
      segment: {
        slot: {
          path: null,
          before: [],
          after: '',
          type: 'text',
          values: [...new Set(texts)].slice(0, 24),
          perLine: texts,
        },
        said: tokens
          .slice(0, i)
          .map((token) => token ?? '#')
          .join(' '),
        isClear: isMark && CLEAR.has(mark),
        within,
      },
    });
  }
  return found;
}

function endsAt({ tokens, gaps }: Template, i: number): boolean {
  const token = tokens[i] ?? '';
  return ENDS.has(token) || BEGINS.has(token) || (token === '-' && gaps[i] !== '');
}
