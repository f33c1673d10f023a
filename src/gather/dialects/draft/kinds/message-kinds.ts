import { escaped } from '../escaped.js';
import { groupBy } from '../../../../model/index.js';
import { byCutShort, withRemark } from './cut-short.js';
import { ownTimes, type FieldForm, type FieldLine } from './field-line.js';
import { fieldSlots } from './field-slots.js';
import { saidBy } from '../lexicon/said.js';
import { commonestFirst, type Kind } from './kind.js';
import { SAID } from './source-path.js';
import { timeNameOf } from './time-columns.js';
import { textKinds } from './text-kinds.js';

/** Minimum fraction of informative sentences among all that a device writes. */
const MOSTLY = 0.7;

/** Where the sentences of records are, and the fields next to them. */
export interface MessageFields extends FieldForm {
  readonly path: string;
  /** Fields that name a sentence's subject. */
  readonly subjects: readonly string[];
  /** Fields with durations in units. */
  readonly spelt: ReadonlySet<string>;
}

/** Kinds of sentence, separated by subject. */
export function messageKinds(lines: readonly FieldLine[], where: MessageFields): Kind[] {
  const { subjects } = where;
  const groups = groupBy(lines, ({ fields }) => subjects.map((subject) => fields.get(subject) ?? '').join('\0'));
  const kinds = [...groups.values()]
    .flatMap((own) => byCutShort(own, [where.path, ...subjects], where.timePaths))
    .flatMap(({ lines: own, remark }) => sentenceKinds(own, where).map((kind) => withRemark(kind, remark)))
    .sort(commonestFirst);
  // Details of what another field reports are not sentences of a device.
  const said = kinds.map(({ wording, lead }) => saidBy(wording.slice(lead)));
  const sum = said.reduce((all, one) => all + one, 0);
  // `belichting` with `goed`, `dither` with `4,8 px`: however informative some are, the adjacent field is the subject.
  const isLead = sum >= SAID * kinds.length && said.filter((one) => one > 0).length >= MOSTLY * kinds.length;
  return isLead ? kinds : kinds.map((kind) => ({ ...kind, lead: 0 }));
}

function sentenceKinds(
  lines: readonly FieldLine[],
  { path, subjects, timePaths, decimalComma, spelt }: MessageFields,
): Kind[] {
  const messages = lines.flatMap(({ fields, line, atMs }) => {
    const text = fields.get(path)?.trim();
    return text === undefined || text === '' ? [] : [{ text, line, atMs }];
  });
  const byLine = new Map(lines.map((line) => [line.line, line] as const));
  const about = subjects.flatMap((subject) => {
    const value = lines[0]?.fields.get(subject);
    return value === undefined || value === '' ? [] : [{ subject, value }];
  });
  const condition = Object.fromEntries(about.map(({ subject, value }) => [subject, `^${escaped(value)}$`]));
  return textKinds(messages, decimalComma).map((kind) => {
    const own = kind.lines.flatMap((line) => byLine.get(line) ?? []);
    const others = new Set(own.flatMap(({ fields }) => [...fields.keys()]));
    const known = [path, ...subjects, ...ownTimes(own, timePaths)];
    const { slots, patterns } = fieldSlots(
      own,
      [...others].filter((one) => !known.includes(one)),
      decimalComma,
      spelt,
    );
    return {
      ...kind,
      wording: [...about.map(({ value }) => value), kind.wording].join(' '),
      lead: about.reduce((sum, { value }) => sum + value.length + 1, 0),
      ...timeNameOf(own, timePaths),
      slots: [...kind.slots, ...slots],
      when: (groups) => {
        const pattern = kind.when(groups);
        return typeof pattern === 'string' ? { ...condition, [path]: pattern, ...patterns(groups) } : pattern;
      },
    };
  });
}
