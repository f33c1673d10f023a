import { beginOfSpan, endOfSpan, type EventName, type SpanName } from '../../../model/index.js';

/**
 * The trade's words for what happens at a telescope, in English, Spanish, German and French, as regular expressions
 * on text without accents, in lower case, with punctuation as blanks.
 */
const ACTIONS = {
  abort: /\b(?:abort\w*|cancel\w*|interrupt\w*|interrump\w*|interromp\w*|abgebroch\w*|abbruch|annul\w*)\b/,
  pause: /\b(?:paus\w*|suspend\w*|halt(?:ed|s)?|angehalten|unterbroch\w*|suspendu\w*)\b/,
  resume: /\b(?:resum\w*|continu\w*|reanud\w*|fortgesetzt|fortsetz\w*|wieder aufgenommen|repris\w*|reprend)\b/,
  lost: /\b(?:lost|lose|loses|vanish\w*|disappear\w*|perdid\w*|verlor\w*|perdue?s?)\b/,
  found: /\b(?:found|recover\w*|reacquir\w*|regain\w*|is back|recuperad\w*|encontrad\w*|\w*gefunden|retrouv\w*)\b/,
  saved:
    /\b(?:saved|saves|stored|stores|written|writes|wrote|guardad\w*|escrit\w*|gespeichert|geschrieben|enregistr\w*|sauvegard\w*)\b/,
  ready: /\b(?:ready|list[oa]|bereit|pret|prete)\b/,
  end: /\b(?:ends?|ended|finish\w*|complet\w*|done|stop|stops|stopped|over|clos(?:e|es|ed)|reached|arrived|in place|in position|selected|terminad\w*|termina|acab\w*|finaliz\w*|fin|deten\w*|parad\w*|beendet|fertig|abgeschlossen|gestoppt|ende|endet|termine\w*|acheve\w*|arret\w*|fini|finie|off|disabl\w*|deactivat\w*|desactiv\w*|deaktiviert)\b/,
  begin:
    /\b(?:start\w*|begin\w*|began|begun|commenc\w*|open|opens|opened|initiat\w*|inici\w*|empiez\w*|empez\w*|empec\w*|comienz\w*|comenz\w*|gestartet|startet|begonnen|beginnt|begann|anfang|debut\w*|demarr\w*|lance\w*|enabl\w*|activ(?:e|ated?|ad[oa])|aktiviert|(?:is|guiding|turned|switched) on)\b|\bon$/,
} as const;

type Action = keyof typeof ACTIONS;

/** Words that alone say that something is going on, or has ended. */
const PROGRESSIVE =
  /\b(?:exposing|dithering|settling|slewing|cent(?:er|r)ing|(?:re)?focus(?:s)?ing|flipping|moving|turning|rotating|changing|selecting|switching|waiting|estabilizando|apuntando|centrando|enfocando|exponiendo|moviendo)\b/;
const PERFECT =
  /\b(?:exposed|dithered|settled|slewed|cent(?:er|r)ed|(?:re)?focus(?:s)?ed|flipped|estabilizad[oa]|centrad[oa] en|enfocad[oa]|zentriert|beruhigt|fokussiert)\b/;

interface Subject {
  readonly id: string;
  readonly words: RegExp;
  /** What an action makes of the subject. */
  readonly events: Partial<Record<Action, EventName>>;
}

const span = (name: SpanName): Partial<Record<Action, EventName>> => ({
  begin: beginOfSpan(name),
  end: endOfSpan(name),
});

/** In order of precedence: a line about a star being lost is about the star, whatever device reports it. */
const SUBJECTS: readonly Subject[] = [
  {
    id: 'star',
    words: /\b(?:\w*star|estrella|\w*stern|etoile)\b/,
    events: { lost: 'star-gap-begin', found: 'star-gap-end' },
  },
  { id: 'settling', words: /settl|estabiliz|beruhig|stabilis/, events: span('settling') },
  { id: 'dither', words: /dither/, events: { ...span('dither'), ready: 'dither-ready' } },
  { id: 'flip', words: /\bflip|flip\b|meridian|umschlag|volteo|retournement/, events: span('flip') },
  {
    id: 'exposure',
    words: /expos|belicht|\bpose\b|shutter|obturador|verschluss|obturateur|aufnahme/,
    events: { ...span('exposure'), abort: 'exposure-abort' },
  },
  {
    id: 'frame',
    words: /\b(?:frame|image|file|bild|datei|imagen|toma|archivo|fichier|light)\b/,
    events: { saved: 'frame-saved' },
  },
  { id: 'focus', words: /focus(?!er|eur|seur)|fokus(?!sierer)|enfoque|mise au point/, events: span('focus') },
  { id: 'filter', words: /filter(?!rad)|filtro|filtre/, events: span('filter') },
  {
    id: 'centre',
    words: /\bcent(?:er|r)(?:ing|ed)\b|\bcent(?:er|re)s?\b|centrad|zentrier|centrage|plate solv/,
    events: span('centre'),
  },
  {
    id: 'slew',
    words: /slew|apuntad|schwenk|pointage|\bgoto\b|\bmovimiento\b|desplazamiento|deplacement/,
    events: span('slew'),
  },
  {
    id: 'guiding',
    words: /\b(?:auto)?guid(?:e|ing|ance)\b|\b(?:auto)?guiad[oa]\b|\b(?:auto)?guidage\b|nachfuhr|leitung/,
    events: { ...span('guiding'), pause: 'guiding-rest-begin', resume: 'guiding-rest-end' },
  },
  { id: 'wheel', words: /\b(?:filter)?wheel\b|\brueda\b|\bfilterrad\b|\broue\b/, events: span('filter') },
];

const UNSAFE = /\b(?:unsafe|not safe|no seguro|inseguro|unsicher|nicht sicher|dangereux|pas sur)\b/;
const SAFE = /\b(?:safe|seguro|sicher|securise)\b/;
const WEATHER =
  /\b(?:clouds?|cloudy|overcast|rain|nubes?|lluvia|wolken|bewolkt|regen|nuages?|pluie|roof|dome|techo|cupula|dach|kuppel|toit|coupole)\b/;
const HELD =
  /\b(?:wait\w*|hold\w*|clos\w*|shut|espera\w*|cerrad\w*|cierra|warte\w*|schliess\w*|geschlossen|attente|attend\w*|ferm\w*)\b/;
/** A wait or hold needs no weather to be one. */
const WAITING = /\b(?:hold|espera|warten|attente)\b/;
/** A roof that closes ends nothing. */
const CLOSED = /\bclos\w*/g;
const RELEASED =
  /\b(?:open\w*|clear\w*|gone|over|abiert\w*|abre|despejad\w*|offen|geoffnet|offnet|klar|ouvert\w*|degage\w*)\b/;
const PARK = /\b(?:park(?:s|ed|ing)?|aparcad\w*|geparkt|parkposition)\b/;

/** The text as the lexicon reads it: lower case, no accents, punctuation and underscores as blanks. */
export function plainWords(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/[^\p{L}\p{N}%]+/gu, ' ')
    .trim();
}

/** What the wording of a line says: an event, or nothing. */
export function eventIn(text: string): EventName | null {
  const words = plainWords(text);
  for (const subject of SUBJECTS) {
    const mention = subject.words.exec(words);
    if (mention === null) continue;
    const event = eventOf(subject, words);
    if (event !== null) return event;
  }
  return holdIn(words);
}

function eventOf(subject: Subject, words: string): EventName | null {
  const progressive = PROGRESSIVE.test(words);
  for (const action of ['lost', 'found', 'saved', 'ready', 'abort', 'pause', 'resume', 'end', 'begin'] as const) {
    const event = subject.events[action];
    if (event !== undefined && ACTIONS[action].test(words)) return event;
  }
  if (progressive && subject.id !== 'guiding') return subject.events.begin ?? null;
  return PERFECT.test(words) ? (subject.events.end ?? null) : null;
}

function holdIn(words: string): EventName | null {
  if (UNSAFE.test(words)) return 'hold-begin';
  if (SAFE.test(words)) return 'hold-end';
  if (PARK.test(words)) return 'hold-begin';
  if (!WEATHER.test(words) && !WAITING.test(words)) return null;
  if (RELEASED.test(words) || ACTIONS.end.test(words.replace(CLOSED, ''))) return 'hold-end';
  return HELD.test(words) ? 'hold-begin' : null;
}

/** Whether a word belongs to the trade or says what becomes of something: it tells lines apart and is no value. */
export function isTelling(word: string): boolean {
  const plain = plainWords(word);
  if (plain === '') return false;
  return (
    SUBJECTS.some((subject) => subject.words.test(plain)) ||
    Object.values(ACTIONS).some((action) => action.test(plain)) ||
    PROGRESSIVE.test(plain) ||
    PERFECT.test(plain) ||
    UNSAFE.test(plain) ||
    SAFE.test(plain) ||
    WEATHER.test(plain) ||
    PARK.test(plain)
  );
}
