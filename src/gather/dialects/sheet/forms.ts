import type { SheetLine, SheetTable } from './sheet-lines.js';

/** A form has so many labels with dotted lines behind them, and there are so many forms. */
const MIN_LABELS = 4;
const MIN_FORMS = 5;
/** A label and its dotted line; the value is what follows up to the next label, or to three blanks. */
const LABEL = /(\p{L}(?:(?! {3})[^.:]){0,60}?[^.:\s])\s{0,9}\.{2,}(?=\s|$|\d)\s?/gu;
/** What a heading of a form says: `train: heron`. */
const STATED = /(\p{L}[\p{L} ]*?):\s*(\S+(?: \S+)*)/gu;

/**
 * Forms that are filled in for each frame, a label with a dotted line in front of each value, some values left out: a
 * table with a row for each form, and a column for each label. The line above a form may state more, as `train: wren`.
 * The lines are marked as taken; `null` if there are no such forms.
 */
export function formsIn(lines: readonly SheetLine[]): SheetTable | null {
  const forms: Map<string, string>[] = [];
  const taken: SheetLine[] = [];
  let form: Map<string, string> | null = null;
  for (const [i, line] of lines.entries()) {
    const labelled = labelsIn(line.text);
    if (labelled.length === 0) {
      form = null;
      continue;
    }
    if (form === null) {
      const above = lines[i - 1];
      form = new Map(above === undefined ? [] : statedIn(above.text));
      forms.push(form);
      if (above !== undefined && form.size > 0) taken.push(above);
    }
    for (const [label, value] of labelled) form.set(label, value);
    taken.push(line);
  }
  const columns = [...new Set(forms.flatMap((one) => [...one.keys()]))];
  if (forms.length < MIN_FORMS || columns.length < MIN_LABELS) return null;
  for (const line of taken) line.isTaken = true;
  return { heading: 'forms', columns, rows: forms.map((one) => columns.map((name) => one.get(name) ?? '')) };
}

function labelsIn(text: string): (readonly [string, string])[] {
  const labels = text.includes('..') ? [...text.matchAll(LABEL)] : [];
  return labels.map((label, i) => {
    const from = label.index + label[0].length;
    const value = text.slice(from, labels[i + 1]?.index ?? text.length);
    return [(label[1] ?? '').trim(), value.trim()] as const;
  });
}

function statedIn(text: string): (readonly [string, string])[] {
  return [...text.matchAll(STATED)].map(([, name = '', value = '']) => [name.trim(), value] as const);
}
