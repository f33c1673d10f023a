import { groupBy } from '../../../../model/index.js';
import { plainWords } from '../lexicon/plain-words.js';
import { MOTIONS } from '../lexicon/motions.js';
import { SUBJECTS } from '../lexicon/subjects.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { ANY, areStates, type Changes, flagOf, stateOf } from './changes.js';
import type { FieldLine } from './field-line.js';
import { commonestFirst, type Kind } from './kind.js';

const SETTLING = SUBJECTS.find(({ id }) => id === 'settling');
/** Evidence that settles what a state begins or ends, and its lead. */
const CLEAR = 2;
const AHEAD = 0.5;

/** What a change says in words, behind the name of its property. */
interface Said {
  readonly lead: string;
  readonly message: string;
}

/**
 * The kinds of a log of changes: by property and the state it enters, and by the state it leaves where that tells what
 * is over; by property alone where its values are no states.
 *
 * @param kindOf makes a kind of records with the same values in these fields
 */
export function changeKinds(
  lines: readonly FieldLine[],
  { of, before, now }: Changes,
  kindOf: (own: readonly FieldLine[], telling: readonly string[]) => Kind,
): Kind[] {
  const withoutBefore = (own: readonly FieldLine[]): FieldLine[] =>
    own.map((line) => ({ ...line, fields: new Map([...line.fields].filter(([path]) => path !== before)) }));
  return [...groupBy(lines, ({ fields }) => fields.get(of) ?? '').entries()]
    .flatMap(([property, own]): Kind[] => {
      const name = plainWords(property);
      if (!areStates(own.map(({ fields }) => fields.get(now) ?? '')))
        return [{ ...kindOf(withoutBefore(own), [of]), valueName: property, wording: name, lead: 0 }];
      const pairOf = ({ fields }: FieldLine): readonly [string, string] => [
        stateOf(fields.get(before)),
        stateOf(fields.get(now)),
      ];
      const entered = groupBy(own, (line) => pairOf(line)[1]);
      return [...entered].flatMap(([state, rows]): Kind[] => {
        const byLeft = groupBy(rows, (line) => pairOf(line)[0]);
        const said = new Map([...byLeft.keys()].map((left) => [left, saidOf(name, left, state)] as const));
        const events = new Set([...said.values()].map((one) => likeliest(one) ?? ''));
        const named = (one: Said, kind: Kind): Kind => ({
          ...kind,
          valueName: property,
          wording: `${one.lead} ${one.message}`.trim(),
          lead: one.lead === '' ? 0 : one.lead.length + 1,
        });
        const [some] = said.values();
        // A filter's name distinguishes nothing.
        const telling = state === ANY ? [of] : [of, now];
        if (events.size <= 1 && some !== undefined && state !== ANY)
          return [named(some, kindOf(withoutBefore(rows), telling))];
        return [...byLeft].map(([left, part]) => {
          const isTold = left !== '' && left !== ANY;
          const kind = kindOf(isTold ? part : withoutBefore(part), isTold ? [...telling, before] : telling);
          return named(said.get(left) ?? { lead: name, message: state }, kind);
        });
      });
    })
    .sort(commonestFirst);
}

/** What entering a state says, or leaving the one before: the clearer of both. */
function saidOf(name: string, left: string, state: string): Said {
  const flag = flagOf(state);
  if (flag !== null) return ofFlag(name, flag);
  if (state === ANY) return { lead: name, message: 'in place' };
  if (state === '') return left === '' ? { lead: name, message: '' } : { lead: name, message: `${left} → -` };
  const alone = { lead: name, message: state };
  const changed = { lead: name, message: `${left === '' || left === ANY ? '-' : left} → ${state}` };
  return likeliest(changed) === null && likeliest(alone) !== null ? alone : changed;
}

/** `guider settled=true`, `shutter open=false`: the property says what is so, or not. */
function ofFlag(name: string, isSo: boolean): Said {
  const words = name.split(' ');
  const message = words.pop() ?? '';
  const lead = words.join(' ');
  if (SETTLING?.strong.test(message) === true) return { lead, message: isSo ? message : 'waiting to settle' };
  if (isSo) return { lead, message: likeliest({ lead, message }) === null ? `${message} on` : message };
  const opposite = MOTIONS.open.test(message)
    ? 'closed'
    : MOTIONS.lose.test(message)
      ? 'star found'
      : MOTIONS.pause.test(message)
        ? 'resumed'
        : `${message} off`;
  return { lead, message: opposite };
}

/** The event that words clearly state; `null` if they state none, or two alike. */
function likeliest({ lead, message }: Said): string | null {
  const evidence = wordEvidence(`${lead} ${message}`.trim(), '', lead === '' ? 0 : lead.length + 1);
  const [best, next] = [...evidence].sort((a, b) => b[1] - a[1]);
  return best === undefined || best[1] < CLEAR || best[1] - (next?.[1] ?? 0) < AHEAD ? null : best[0];
}
