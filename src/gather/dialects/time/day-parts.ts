/**
 * Parts of the day with a twelve-hour clock, before it or after, and the hours they cover: before noon, after, around
 * noon, or an evening or night that continues past midnight.
 */
const PARTS = [
  {
    part: 'morning',
    before: '午前|上午|凌晨|清晨|早上|早晨|未明|早朝|明け方|朝|오전|새벽|아침|frühmorgens|morgens|vormittags',
    behind:
      'de la ma(?:drugada|ñana)|da ma(?:drugada|nhã)|du matin|del? mattin[oa]|di mattina|morgens|vormittags|' +
      String.raw`'s ochtends|'s morgens|rano|nad ranem|przed poł\.|ráno|dopoledne|dop\.|vorm\.|v\.?m\.|` +
      String.raw`de la matinada|del matí|in the morning|π\.?μ\.?`,
  },
  {
    part: 'afternoon',
    before: '午後|午后|下午|傍晚|夕方|오후|nachmittags',
    behind:
      `de la tarde|da tarde|de l['’]après-midi|del pomeriggio|nachmittags|'s (?:na)?middags|po południu|` +
      String.raw`po poł\.|odpoledne|odp\.|nachm\.|n\.?m\.|de la tarda|in the afternoon|μ\.?μ\.?`,
  },
  { part: 'noon', before: '中午|正午|昼', behind: 'de mediodía|del mediodía|mittags' },
  {
    part: 'evening',
    before: '晚上|晩|저녁|abends',
    behind: `du soir|di sera|del vespre|abends|'s avonds|wieczorem|večer|in the evening`,
  },
  {
    part: 'night',
    before: '夜里|夜裡|深夜|半夜|夜晚|夜间|夜間|夜|밤|nachts',
    behind: `de la no(?:che|it)|da noite|de la nuit|di notte|nachts|'s nachts|w nocy|v noci|at night`,
  },
] as const;

/** A part of the day. */
export type Part = (typeof PARTS)[number]['part'];

/** Half of the day, before an hour; after it, with the blank between. */
export const PART_BEFORE = PARTS.map(({ before }) => before).join('|');
const BEHIND = PARTS.map(({ behind }) => behind).join('|');
/** A single letter is accepted only directly after the digits (`9:42:10p`). */
const LETTER = String.raw`[AaPp](?![\p{L}\d.'’-])`;
const WORDS = String.raw`[AaPp]\.?\s?[Mm]\.?(?![a-z])|(?<=\s)(?:${BEHIND})(?!\p{L})`;
export const PART_BEHIND = String.raw`(?:(?<=\d)${LETTER}|\s?(?:${WORDS}))`;

const WHOLE = new RegExp(
  `^(?:(?<am>a)(?:\\.?\\s?m\\b\\.?|(?![\\p{L}\\d]))|(?<pm>p)(?:\\.?\\s?m\\b\\.?|(?![\\p{L}\\d]))|${PARTS.map(
    ({ part, before, behind }) => `(?<${part}>${before}|(?:${behind})(?!\\p{L}))`,
  ).join('|')})`,
  'iu',
);

/** Maximum UTF-8 length of a part of the day. */
export const LONGEST_PART = 32;

/** The part of the day at the beginning of a text, and its text; `null` if there is none. */
export function dayPart(text: string): { readonly part: Part; readonly text: string } | null {
  const match = WHOLE.exec(text);
  if (match?.groups === undefined) return null;
  const { am, pm } = match.groups;
  const named = PARTS.find(({ part }) => match.groups?.[part] !== undefined)?.part;
  const part = am !== undefined ? 'morning' : pm !== undefined ? 'afternoon' : named;
  return part === undefined ? null : { part, text: match[0] };
}

/** The last hours still called evening, or night, after midnight. */
const SMALL_HOURS = { evening: 3, night: 6 } as const;

/**
 * The hour of the day, 0 to 23, of one combined with a part of the day; NaN if the two contradict each other. An hour
 * beyond twelve is unambiguous.
 */
export function hourIn(part: Part, hour: number): number {
  if (hour > 12) return hour < 24 && part !== 'morning' ? hour : NaN;
  switch (part) {
    case 'morning':
      return hour % 12;
    case 'afternoon':
      return (hour % 12) + 12;
    case 'noon':
      return hour >= 10 ? hour : (hour % 12) + 12;
    case 'evening':
    case 'night':
      return hour % 12 <= SMALL_HOURS[part] ? hour % 12 : hour + 12;
  }
}
