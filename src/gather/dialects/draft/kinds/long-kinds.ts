import { groupBy } from '../../../../model/index.js';
import { escaped } from '../escaped.js';
import type { FieldLine } from './field-line.js';
import { commonestFirst, type Kind } from './kind.js';
import type { LongTable } from './long-tables.js';
import { whenApart } from './optional-fields.js';
import { isFilterName } from './values.js';

/**
 * The kinds of a long table: by name and word, or by name alone where the values are readings.
 *
 * @param kindOf makes a kind of rows with the same values in these columns
 */
export function longKinds(
  lines: readonly FieldLine[],
  { name, value, ofWords, details }: LongTable,
  kindOf: (own: readonly FieldLine[], telling: readonly string[]) => Kind,
): Kind[] {
  const wordOf = ({ fields }: FieldLine): string => {
    const text = fields.get(value) ?? '';
    return ofWords.has(fields.get(name) ?? '') && !isFilterName(text) ? text : '';
  };
  const groups = groupBy(lines, (line) => `${line.fields.get(name) ?? ''}\0${wordOf(line)}`);
  return [...groups.values()]
    .flatMap((own): Kind[] => {
      const [first] = own;
      const valueName = first?.fields.get(name) ?? '';
      if (first === undefined || details.has(valueName)) return [];
      const isWord = wordOf(first) !== '';
      const named = kindOf(own, isWord ? [name, value] : [name]);
      // `heron.filter` and `wren.filter` differ in one word.
      const wording = named.wording.replace(/(?<=\p{L})[/._]+(?=\p{L})/gu, ' ');
      const kind = { ...named, valueName, wording };
      if (isWord || !ofWords.has(valueName)) return [kind];
      // Filters beside words of the same name.
      const filters = [...new Set(own.map(({ fields }) => escaped(fields.get(value) ?? '')))].join('|');
      return [{ ...kind, when: (slots) => whenApart(kind.when(slots), { [value]: `^(?:${filters})$` }) }];
    })
    .sort(commonestFirst);
}
