import { groupBy } from '../../../../model/index.js';
import { ownTimes, recordText, shapeOf, type FieldForm, type FieldLine } from './field-line.js';
import { fieldSlots, hintsOf } from './field-slots.js';
import { commonestFirst, type Kind, type Slot } from './kind.js';
import { leftFirst } from './left-first.js';
import { stateWord } from './binary-states.js';
import { pathsAs, whenApart } from './optional-fields.js';
import { withRemark } from './cut-short.js';
import { changeKinds } from './change-kinds.js';
import { changesIn } from './changes.js';
import { apartBy, markBetween } from './cell-parts.js';
import { besideNone, columnsInTurn } from './columns-in-turn.js';
import { escaped } from '../escaped.js';
import { messageKinds } from './message-kinds.js';
import { speltColumns } from './spelt-lengths.js';
import { sourcePath } from './source-path.js';
import { longKinds } from './long-kinds.js';
import { longTable } from './long-tables.js';
import { MAX_DISTINCT, messagePath, type PathFacts } from './message-path.js';
import { takenApart } from './own-states.js';
import { isLeft } from './turned-states.js';
import { asTurned, asTurnedByName, turningField, turningNames } from './turning-field.js';
import { namedStates } from './named-states.js';
import { plainWords } from '../lexicon/plain-words.js';
import { endsSomething, isSubject, saysMotion } from '../lexicon/said.js';
import { statePairs, statePaths, valuesOf } from './state-paths.js';
import { tellingPaths } from './telling-paths.js';
import { timeColumnOf, timeNameOf } from './time-columns.js';

/** The name of the element that encloses a record. */
const AROUND = 'in.tag';
/** Maximum number of different values of a field that names a sentence's subject. */
const MAX_SUBJECTS = 30;
const KEPT = 3000;

/** The kinds of record in a log, most common first, distinguished by the fields that say what happened. */
export function fieldKinds(lines: readonly FieldLine[], form: FieldForm, byShape: boolean): Kind[] {
  const { timePaths } = form;
  const spelt = speltColumns(lines, timePaths);
  const cells = { ...form, spelt };
  const turns = columnsInTurn(lines, timePaths);
  const between = turns.length === 0 ? null : markBetween(lines, turns);
  if (turns.length > 0)
    return turns
      .flatMap((path) =>
        messageKinds(apartBy(besideNone(lines, path, turns), path, between), {
          ...cells,
          path,
          subjects: [],
        }).map(under(path)),
      )
      .sort(commonestFirst);
  const changes = changesIn(lines, timePaths);
  if (changes !== null)
    return changeKinds(lines, changes, (own, telling) => fieldKind(own, cells, { ...BY_VALUES, telling }));
  const long = longTable(lines, timePaths);
  if (long !== null) return longKinds(lines, long, (own, telling) => fieldKind(own, cells, { ...BY_VALUES, telling }));
  const facts = factsOf(lines, timePaths);
  const message = messagePath(facts, lines);
  if (message !== null) {
    // The subject of a sentence may be in a separate field.
    const others = facts.filter(
      ({ path, values }) =>
        path !== message && values.size <= MAX_SUBJECTS && ![...values.keys()].some((value) => /\d/.test(value)),
    );
    const telling = tellingPaths(others, lines);
    const quiet = lines.filter(({ fields }) => (fields.get(message) ?? '').trim() === '');
    // A text that all rows without a sentence share distinguishes nothing, but it is their wording.
    const alike = telling.filter((path) => new Set(quiet.map(({ fields }) => fields.get(path) ?? '')).size === 1);
    const constant = alike.map((path) => quiet[0]?.fields.get(path) ?? '').filter((value) => value !== '');
    const without = (kind: Kind): Kind => ({
      ...kind,
      wording: [kind.wording, ...constant.filter((value) => !kind.wording.includes(value))].join(' ').trim(),
      when: (groups) => whenApart(kind.when(groups), { [message]: '^$' }),
    });
    const saying = (): Kind[] => messageKinds(lines, { ...cells, path: message, subjects: telling });
    if (quiet.length > lines.length / 2)
      return [...saying(), ...fieldKinds(quiet, form, byShape).map(without)].sort(commonestFirst);
    // A row may omit its sentence: the adjacent fields suffice.
    const silent = groupBy(quiet, ({ fields }) => valuesOf(fields, telling));
    return [
      ...saying(),
      ...[...silent]
        .filter(([key]) => key.replace(/\0/g, '') !== '')
        .map(([, own]) => without(fieldKind(own, cells, { ...BY_VALUES, telling }))),
    ].sort(commonestFirst);
  }
  const words = tellingPaths(facts, lines);
  const things = new Set(namedStates(facts, lines, commonIn(facts, lines), timePaths));
  const said = [...words, ...[...things].filter((path) => !words.includes(path))];
  const withStates = [...said, ...statePaths(facts, said, lines)];
  const telling = leftFirst(withStates, statePairs(facts, withStates), lines);
  const states = statePairs(facts, telling);
  const arrows = new Set(states.map(([, entered]) => entered));
  // The element that encloses a record hints at its subject.
  const source = telling.includes(AROUND) ? AROUND : sourcePath(telling, lines, states.flat());
  const turning = turningField(telling, lines);
  const byName = turning === null ? turningNames(telling, lines) : null;
  const turned = (kind: Kind, fields: ReadonlyMap<string, string>): Kind =>
    turning !== null
      ? asTurned(kind, fields, turning, source)
      : byName === null
        ? kind
        : asTurnedByName(kind, fields, byName);
  const groups = new Map<string, FieldLine[]>();
  for (const line of lines) {
    const values = valuesOf(line.fields, telling);
    // Records identified by their field names alone.
    const key = byShape && values.replace(/\0/g, '') === '' ? shapeOf(line.fields, timePaths) : values;
    const own = groups.get(key);
    if (own === undefined) groups.set(key, [line]);
    else own.push(line);
  }
  return [...groups.values()]
    .flatMap((own) => takenApart(own, { all: lines, telling, timePaths, byShape }))
    .map(({ lines: own, present, absent, works, named, remark }) => {
      const stated = fieldKind(own, cells, { telling: [...telling, ...works], byShape, arrows, source, things });
      const called = own[0] === undefined ? stated : turned(stated, own[0].fields);
      const kind = withRemark(named === null ? called : { ...called, wording: `${called.wording} ${named}` }, remark);
      const apart = { ...pathsAs(present, '.'), ...pathsAs(absent, '^$') };
      return present.length + absent.length === 0
        ? kind
        : { ...kind, when: (groups: ReadonlyMap<Slot, string>) => whenApart(kind.when(groups), apart) };
    })
    .sort(commonestFirst);
}

/** The kind of a column, preceded by what its title names, such as a train. */
function under(title: string): (kind: Kind) => Kind {
  return (kind) => ({
    ...kind,
    firstLine: Math.floor(kind.firstLine),
    wording: `${title} ${kind.wording}`,
    lead: title.length + 1,
    isCell: true,
  });
}

function factsOf(lines: readonly FieldLine[], timePaths: readonly string[]): PathFacts[] {
  const facts = new Map<string, PathFacts>();
  for (const { fields, timesMs } of lines) {
    for (const [path, value] of fields) {
      // `18h11m45` is no word; an instant such as `2026-10-14T18:11:45Z` is never taken for one.
      if (timePaths.includes(path) || value === '' || (timesMs?.has(path) === true && /\d\p{Ll}/u.test(value)))
        continue;
      const one = facts.get(path) ?? { path, count: 0, values: new Map() };
      facts.set(path, one);
      one.count++;
      if (one.values.size <= 2 * MAX_DISTINCT || one.values.has(value))
        one.values.set(value, (one.values.get(value) ?? 0) + 1);
    }
  }
  return [...facts.values()];
}

/** The fields that nearly all records have. */
function commonIn(facts: readonly PathFacts[], lines: readonly FieldLine[]): string[] {
  return facts.flatMap(({ path, count }) => (count >= COMMON * lines.length ? [path] : []));
}

/** Records with only the common fields. */
const COMMON = 0.9;

/** How the records of a kind say what happened. */
interface Telling {
  /** The fields whose values they have in common. */
  readonly telling: readonly string[];
  /** The names of their fields say it where no value does. */
  readonly byShape: boolean;
  /** Fields with the state that is entered. */
  readonly arrows: ReadonlySet<string>;
  /** The field with the device or component that writes them. */
  readonly source: string | null;
  /** Fields named after the thing whose state they hold. */
  readonly things: ReadonlySet<string>;
}

const BY_VALUES: Omit<Telling, 'telling'> = { byShape: false, arrows: new Set(), source: null, things: new Set() };

function fieldKind(
  lines: readonly FieldLine[],
  { timePaths, decimalComma, spelt }: FieldForm & { readonly spelt: ReadonlySet<string> },
  { telling, byShape, arrows, source, things }: Telling,
): Kind {
  const first = lines[0];
  const kept = lines.slice(0, KEPT);
  const values = telling.map((path) => first?.fields.get(path) ?? '');
  const paths = new Set(kept.flatMap(({ fields }) => [...fields.keys()]));
  const { slots, cells, patterns } = fieldSlots(
    kept,
    [...paths].filter((path) => !telling.includes(path) && !ownTimes(kept, timePaths).includes(path)),
    decimalComma,
    spelt,
  );
  const said = (paths: readonly string[]): string[] =>
    paths.flatMap((path) => {
      const value = values[telling.indexOf(path)];
      const part =
        things.has(path) || saysOver(path, value)
          ? plainWords(path.split('.').pop() ?? path)
          : ambiguous(path, telling)
            ? path.split('.').slice(0, -1).join(' ')
            : '';
      const state = value === undefined ? null : stateWord(value);
      if (isLeft(value, values[telling.indexOf(path) + 1])) return [];
      if (state !== null) return [`${part} ${state}`.trim()];
      return value ? [`${arrows.has(path) ? '→ ' : ''}${part} ${value}`.trim()] : [];
    });
  // What begins in an unknown state tells of no event.
  const isFromUnknown = values.some((value, i) => isLeft(value, values[i + 1]) && stateWord(value) === null);
  const front = source === null || isFromUnknown ? '' : said([source]).join(' ');
  const shape = byShape && values.every((value) => value === '') ? shapeOf(first?.fields ?? new Map(), timePaths) : '';
  const when = Object.fromEntries([
    ...telling.flatMap((path, i) => (values[i] ? [[path, `^${escaped(values[i])}$`] as const] : [])),
    ...(shape === '' ? [] : shape.split('\0').map((path) => [path, '.'] as const)),
  ]);
  return {
    count: lines.length,
    firstLine: first?.line ?? 0,
    examples: [...new Set(lines.slice(0, 50).map(({ fields }) => recordText(fields, timePaths)))].slice(0, 3),
    summary: recordText(first?.fields ?? new Map(), timePaths),
    wording: isFromUnknown
      ? ''
      : [front, ...said(telling.filter((path) => path !== source)), ...shape.split('\0')].join(' ').trim(),
    lead: front.length,
    hints: hintsOf(slots, cells),
    ...timeNameOf(kept, timePaths),
    ...(byShape ? {} : timeColumnOf(kept, timePaths)),
    slots,
    lines: kept.map(({ line }) => line),
    atMs: kept.map(({ atMs }) => atMs),
    when: (groups) => ({ ...when, ...patterns(groups) }),
  };
}

/** `done: exposure`, `finished: slew`: the field name says what happens to its value. */
function saysOver(path: string, value: string | undefined): boolean {
  const name = path.split('.').pop() ?? path;
  return value !== undefined && !saysMotion(value) && isSubject(value) && endsSomething(name) && !isSubject(name);
}

/** Several fields share the last part of their name in different parts of the record: the part is the subject. */
function ambiguous(path: string, telling: readonly string[]): boolean {
  const name = path.split('.').pop();
  return telling.filter((other) => other.split('.').pop() === name).length > 1;
}
