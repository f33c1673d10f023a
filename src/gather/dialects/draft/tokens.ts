import { PART_BEFORE } from '../time/day-parts.js';
import { isFilterName } from './kinds/values.js';

/** A piece of a log line. */
export interface Token {
  readonly text: string;
  /** Its text naturally varies from line to line: a number, a file, a designation. */
  readonly variable: boolean;
  /** Its separator: nothing, one space, or other blanks. */
  readonly gap: Gap;
}

/**
 * Blanks before a token: none, one space, others, the end of a line, or others including no-break or ideographic
 * spaces.
 */
export type Gap = '' | ' ' | 'blanks' | 'line' | 'wide';

/** Chinese and Japanese words need no blank before a number, a name or a path. */
const HAN = String.raw`[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}ー]`;
/**
 * Two words with a slash between them, `heron/camera`, name a part of something; a path has more, or begins with one.
 * Nor are two signed numbers one, `-0.46/+0.25`.
 */
const NO_PAIR = String.raw`(?![-+\u2212]?\d*(?:[.,]\d+)?\/[-+\u2212]\d)(?!${HAN}+[\p{Script=Latin}\d~\/\\])(?<!(?!${HAN})\p{L})(?!\p{L}+\/\p{L}+(?![\p{L}\d_.~\/\\-]))`;
const ENDING = 'fits?|fts|fz|tiff?|raw|png|ser';
const FRAME_ENDING = String.raw`\.(?:${ENDING}|${ENDING.toUpperCase()})(?:\.(?:gz|fz))?`;
/** An object designation from a catalogue; in `M33-R-001.fits` it is part of the file name. */
const DESIGNATION = String.raw`(?:NGC|IC|UGC|PGC|LDN|LBN|Sh2|SH2|Arp|Abell|Barnard|vdB|M)[ _-]?\d+(?![\w.]\w)(?![^\s"'|;,()=:]{0,80}${FRAME_ENDING})`;
/** The characters of a path or name up to the next blank. */
const PATH_PIECE = String.raw`[^\s"'|;,()=:]*`;
/**
 * A frame's file name with blanks: quoted, or after a path whose further words begin with a capital or a digit. Words
 * of the line begin in lower case: `from /data/heron to Ha_001.fits` are two, and so are `"stored n_001.fits"`.
 */
const SPACED_FILE = String.raw`(?<=["“«])(?!\p{Ll}{3,} \p{Ll}[^\s"”»]*["”»])[^"”»]{1,160}${FRAME_ENDING}(?=["”»])|${NO_PAIR}[\p{L}\d_.~-]*[\/\\]${PATH_PIECE}(?: (?:[\p{Lu}\d]${PATH_PIECE}|-(?= ))){0,5} [\p{Lu}\d_]${PATH_PIECE}${FRAME_ENDING}(?![\p{L}\d.])`;
/**
 * Chinese or Japanese text in a file name is delimited by underscores, `wren_光_001.fits`; other words are adjacent to
 * it.
 */
const FILE_NAME = String.raw`(?:${HAN}+(?=[_-]))?(?:(?!${HAN})[\p{L}\d_-]|(?<=[_-]${HAN}*)${HAN}|\.(?=[\p{L}\d_]))+`;
const FILE = String.raw`(?:(?<![\p{L}\d])\p{Lu}:(?=[\/\\]))?${NO_PAIR}[\p{L}\d_.~-]*[\/\\][^\s"'|;,()]*?${FRAME_ENDING}(?=${HAN})|(?:(?<![\p{L}\d])\p{Lu}:(?=[\/\\]))?${NO_PAIR}[\p{L}\d_.~-]*[\/\\](?:[^\s"'|;,()]*[^\s"'|;,().:\/\\])|[\p{L}\d_.~-]+[\/\\](?![^\s])|${FILE_NAME}${FRAME_ENDING}(?!(?!${HAN})[\p{L}\d])`;
/** A time of day, alone or with its date, its half of the day or its offset; with a plus sign it is elapsed time. */
const CLOCK = String.raw`(?<![\d:])\+?(?:\d{1,4}[-./]\d{1,2}[-./]\d{2,4}[T ]\s?)?\d{1,2}[:.]\d{2}[:.]\d{2}(?:[.,]\d+)?(?:\s?[AaPp]\.?[Mm]\b\.?|Z\b|[+-]\d{2}:?\d{2}\b)?(?!\d|:\d)`;
/** The same with units: `20 h 04 min 02 s`, 午後8時44分29秒. */
const GAP = '[ \\u00a0\\u202f]?';
const SPELT_CLOCK = String.raw`(?<![\p{L}\d])\d{1,2}${GAP}h${GAP}\d{2}(?:${GAP}m(?:in|n)?\.?${GAP}\d{1,2}(?:,\d+)?(?:${GAP}s(?![\p{L}]))?|(?![\d:]))|(?:${PART_BEFORE})?\d{1,2}[時时点點]\d{1,2}分(?:\d{1,2}(?:[.,]\d+)?秒)?|(?:(?:${PART_BEFORE})\s?)?\d{1,2}시\s?\d{1,2}분(?:\s?\d{1,2}(?:[.,]\d+)?초)?`;
/** A duration in several units: `9 min 00.2 s`, `1h2m3s`. */
const SPAN = String.raw`(?<![\p{L}\d.,:])(?:\d{1,3}h)?\d{1,4}${GAP}(?:m|mn|min|mins|minut\p{L}*)\.?${GAP}\d{1,2}(?:[.,]\d+)?${GAP}(?:s|sec|secs|sek|seg|secon\p{L}+|segun\p{L}+|sekun\p{L}+)(?![\p{L}\d])`;
/** Leaders: as many dots or dashes as there is room. */
const LEADER = String.raw`(?:\.{3,}|·{3,}|_{3,}|={3,}|~{3,}|-{3,})`;
const UNIT = String.raw`(?:s|sec|secs|ms|min|h|px|C|K|mm|um|GB|MB|V|A|%|°C?)(?![\p{L}\d])`;
/** A letter or two that name the attached number: `p21316`, `w3.25`. */
const GLUED = String.raw`(?<![\p{L}\d_])[a-z]{1,2}(?=\d+(?:[.,]\d+)?(?![\p{L}\d_]))`;
/** `heron's` is a name and what belongs to it. */
const WORD = String.raw`${HAN}+|(?:(?!${HAN})[\p{L}_])(?:(?!${HAN})[\p{L}\d_-]|['’](?!s(?![\p{L}\d'’])))*`;
const OTHER_WORD = String.raw`[\p{L}\d_](?:(?!${HAN})[\p{L}\d_.-])*`;

/** Its groups: blanks, complete words or names of numbers, and single marks; anything else varies. */
function tokenPattern(decimalMark: string): RegExp {
  const number = String.raw`(?!-\d{1,2}:\d{2}:\d{2})[-+\u2212]?\d+(?:[${decimalMark}]\d+)?(?=${UNIT}|${HAN}|[℃°\p{Script=Hangul}]|(?![\p{L}\d_]))`;
  return new RegExp(
    String.raw`(\s+)|${LEADER}|${DESIGNATION}|${SPACED_FILE}|${FILE}|${SPAN}|${CLOCK}|${SPELT_CLOCK}|${number}|(${GLUED}|${WORD})|${OTHER_WORD}|([^])`,
    'gu',
  );
}

const WITH_POINT = tokenPattern('.');
const WITH_COMMA = tokenPattern(',');

/** `Ha montato`, `ha girado`: a verb, not a filter. */
const HAS_DONE = /^ha \p{Ll}{2,}(?:[aiu]t[oaie]|[ai]do|ss[oaie]|st[oaie]|tt[oaie])(?!\p{L})/u;

/** A letter with an attached sign is a code, `C+`, `R!`, not a filter. */
const CODE_BEHIND = /^[+!?=*<>](?:\s|$)/;

/** Unlikely for seconds and counts: below zero, or with decimals. */
const DEGREES = /^(?:[-\u2212]\d+|[-+]?\d+[.,]\d+)$/;

/** Longest message that is tokenised; log messages are shorter. */
const MAX_TEXT = 2000;

/** As many messages as a draft examines: each is tokenised for its template, and again for its values. */
const KEPT = 32_000;
const kept = { point: new Map<string, readonly Token[]>(), comma: new Map<string, readonly Token[]>() };

/** Tokenises a message: words, numbers, files and catalogue designations as units, other characters one by one. */
export function tokenize(message: string, decimalComma: boolean): readonly Token[] {
  const known = decimalComma ? kept.comma : kept.point;
  const before = known.get(message);
  if (before !== undefined) return before;
  if (known.size >= KEPT) known.clear();
  const tokens = takenApart(message, decimalComma);
  known.set(message, tokens);
  return tokens;
}

function gapOf(blanks: string): Gap {
  if (blanks === ' ') return ' ';
  if (!/^[ \t\n\r\f]+$/.test(blanks)) return 'wide';
  return blanks.includes('\n') ? 'line' : 'blanks';
}

function takenApart(message: string, decimalComma: boolean): Token[] {
  const tokens: Token[] = [];
  const pattern = decimalComma ? WITH_COMMA : WITH_POINT;
  const shown = message.slice(0, MAX_TEXT);
  let gap: Gap = '';
  pattern.lastIndex = 0;
  for (let match = pattern.exec(shown); match !== null; match = pattern.exec(shown)) {
    // By number: named groups are collected for every token, which takes as long as the search.
    const [text, blank, word, mark] = match;
    if (blank !== undefined) {
      gap = gapOf(text);
      continue;
    }
    const { index } = match;
    // Filters are words, yet values; the C after a degree sign, or degrees, is not one.
    const last = tokens[tokens.length - 1]?.text ?? '';
    const isUnit = (last === '°' && gap === '') || (text === 'C' && DEGREES.test(last));
    const variable =
      (word === undefined && mark === undefined) ||
      (isFilterName(text) &&
        !isUnit &&
        !(text.length === 1 && CODE_BEHIND.test(message.slice(index + 1, index + 3))) &&
        !(text === 'ha' && HAS_DONE.test(message.slice(index, index + 24))));
    tokens.push({ text, variable, gap });
    gap = '';
  }
  return tokens;
}
