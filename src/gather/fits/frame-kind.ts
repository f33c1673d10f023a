/** The purpose of an exposure. */
import type { FrameKind } from '../../model/frame.js';
import type { CardReader } from './card-reader.js';
import { show } from './notes.js';

/** Without a type card, an exposure with a length is a light and one without is a bias. */
export function readKind(reader: CardReader, seconds: number | undefined): FrameKind {
  const text = reader.text('kind');
  if (text === undefined) {
    const besides = reader.text('kindOrElse');
    const stated = besides === undefined ? undefined : frameKind(besides);
    if (stated !== undefined) return stated;
    const kind = seconds === 0 ? 'bias' : 'light';
    reader.notes.push({
      code: 'missing-kind',
      card: 'IMAGETYP',
      what: `no card says what the exposure is for; it was taken as a ${kind}`,
      remedy: 'Have the capture program write IMAGETYP, or name the keyword it uses in the rig file.',
    });
    return kind;
  }
  const kind = frameKind(text);
  if (kind !== undefined) return kind;
  const card = reader.firstName('kind') ?? 'IMAGETYP';
  reader.notes.push({
    code: 'unknown-kind',
    card,
    what: `${card} is ${show(text)}, which names no known kind of frame; it was counted as 'other'`,
    remedy: 'Have the capture program write Light, Dark, Flat or Bias.',
  });
  return 'other';
}

/**
 * Spellings of IMAGETYP (common practice, no source), in the languages that logs are read in. Order matters: a dark
 * flat names both, and a master of any kind is no exposure.
 */
const FLAT =
  'flat|wei(?:ß|ss)(?:bild|aufnahme)|flachbild|hellbild|(?:^|[^a-z])plu(?:$|[^a-z])|plage|plan[oa]|piatt[oa]|' +
  'vlakbeeld|плоск|フラット|平场|平場|플랫';
const DARK =
  'dark|dunkel|noir|obscur|oscur|escur|bui[oa]|scur[oa]|donker|m[øö]rk|tmav|temn|ciemn|т[её]мн|' + 'ダーク|暗|다크';
const SPELLINGS: readonly (readonly [RegExp, FrameKind])[] = [
  [/master|integration|stack|stapel|summenbild|empil|apilad|somma|soma(?:$|[^a-z])|マスター/, 'other'],
  [new RegExp(`(?:${DARK}).*(?:${FLAT})|(?:${FLAT}).*(?:${DARK})`), 'dark-flat'],
  [new RegExp(FLAT), 'flat'],
  [new RegExp(DARK), 'dark'],
  [/bias|zero|offset|nullbild|nullaufnahme|vorspannung|バイアス|偏置|偏压|偏壓|바이어스|смещени/, 'bias'],
  [/light|object|science|^sci$|target/, 'light'],
  [
    /focus|fokus|test|snapshot|preview|comp|arc|acquisition|calib|probe|vorschau|suchbild|kalib|enfo|aperçu|foco|fuoco/,
    'other',
  ],
  [/licht|lumi[eè]re|brute|luz|luce|luci|lysbil|ljusb|sv[ěe]tl|[śs]wiat[łl]|свет|ライト|亮场|亮場|光|라이트/, 'light'],

  [/(?:^|[^a-z])(?:lys|ljus)(?:$|[^a-z])/, 'light'],
  [/objekt|obje[tc]|oggett|wissenschaft/, 'light'],
];

/**
 * The most common spellings, matched without the expressions above: compiling these takes as long as several headers.
 */
const COMMON: ReadonlyMap<string, FrameKind> = new Map<string, FrameKind>(
  (['light', 'dark', 'flat', 'bias'] as const).flatMap((kind) =>
    ['', ' frame'].map((more) => [kind + more, kind] as const),
  ),
);

/** The text reported last, and its kind: frames of one kind come in long runs. */
let lastRead: { readonly text: string; readonly kind: FrameKind | undefined } = { text: '', kind: undefined };

/**
 * Determines the kind of a frame from the text of its type card: `Light Frame`, `LIGHT`, `object`, `FLATDARK`, `Master
 * Bias`… Masters are `other`, for they are results, not exposures.
 *
 * @returns `undefined` for an unknown spelling
 */
export function frameKind(text: string): FrameKind | undefined {
  if (text !== lastRead.text) {
    lastRead = { text, kind: COMMON.get(text.toLowerCase()) ?? kindSpelt(text) };
  }
  return lastRead.kind;
}

function kindSpelt(text: string): FrameKind | undefined {
  const spelling = text.normalize('NFC').toLowerCase();
  return SPELLINGS.find(([pattern]) => pattern.test(spelling))?.[1];
}
