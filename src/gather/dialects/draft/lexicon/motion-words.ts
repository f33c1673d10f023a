import { NEGATION_WORDS } from './chatter-words.js';
import { furtherWords } from './further/index.js';
import { allWords } from './languages.js';
import { MOTIONS, type Motion } from './motions.js';
import { plainWords } from './plain-words.js';
import { wordList, type WordList } from './word-list.js';
import { SUBJECTS } from './subjects.js';

/** Marks before or after a line's words that indicate begin or end. */
const MARKS: readonly (readonly [RegExp, Motion])[] = [
  [/^\W{0,2}(?:>|▶|→|\^|↑|\[(?![^\]]*\])|\{(?![^}]*\}))\s?\p{L}/u, 'start'],
  [/^\W{0,2}(?:<(?![^>]*>)|■|←|\]|\}|↓)\s?\p{L}/u, 'stop'],
  [/^\+\s?\p{L}|\p{L}\+(?:\s|$)/u, 'start'],
  [/^-\s?\p{L}|\p{L}-(?:\s|$)/u, 'stop'],
  [/^\?\s?\p{L}|\?$/u, 'ready'],
  [/(?:^|\s)B(?=\s|$)/, 'start'],
  [/(?:^|\s)E(?=\s|$)/, 'stop'],
  [/(?:^|\s)X(?=\s|$)/, 'fail'],
  [/^(?:!|x(?=\p{Lu})|✗|×)\s?\p{L}/u, 'fail'],
];

/** Ready for something, where the word alone means done: `klaar voor verschuiving`. */
export const READY_FOR = wordList(
  `klaar_voor klaar_om fertig_fur fertig_zum bereit_fur bereit_zum pret_pour prete_pour pret_a prete_a pronto_per
     pronta_per
     pronto_a listo_para lista_para pronto_para pronta_para gotow[aey]?_do gotow[aey]?_na pripraven[aoy]?_(?:na|k)
     free_to free_for ready_to ready_for listo_a lista_a klar_fur klar_zum prest[oa]_a clear_for may_be done_and_waiting
     clear_to frei_fur libre_pour libero_per`,
);

/** After their subject, meaning done as well as ready: `dither gereed`. */
const READY_OR_DONE = /(?:^|\s)(?:gereed|list[oa]|pront[oa])$/u;

/** In progress or completed, where the verb itself only names the action: `wird versetzt`. */
const BEING_DONE = wordList(
  `wird werden wordt is_being are_being being_[a-z]+ed gets_being esta_siendo se_esta esta_a_ser sta_venendo viene
     vengono
     est_en_train en_train_de on_est_en_train is_aan_het ist_dabei ist_gerade zijn_aan_het しています 中です 正在`,
);
const BEEN_DONE = wordList(
  `wurde wurden worden has_been have_been werd werden_ge[a-z]+ is_ge[a-z]+ zijn_ge[a-z]+ a_ete ont_ete e_stato e_stata
     sono_stati e_stati ha_sido han_sido fue fueron foi foram zostal zostala zostalo zostaly byl byla bylo
     (?:hanno|ha|han)_[a-z]{2,}(?:[aiu]to|[aiu]ta|[ai]do|sso|sto|tto) si_(?:e|sono)_[a-z]{3,}[aiu]t[aeio]
     (?:hat|haben|heeft|hebben)_(?:[a-z]+_){1,4}ge[a-z]+(?:t|en) has_[a-z]{3,}ed have_[a-z]{3,}ed されました しました
     已经 已被`,
);

const SETTLING = SUBJECTS.find(({ id }) => id === 'settling');
/** Begins now: `now it settles`. */
const NOW = wordList('now jetzt nun maintenant ora adesso ahora agora nu teraz nyni ted これから 今から 现在 現在');

/** What is being looked for has not been found, however good it will be: `seeking best focus`, `cerco il fuoco`. */
const SEEKING = wordList(
  `seek seeks seeking looking_for look_for looks_for hunt hunting hunts search* suche sucht suchen suchlauf cherche
     cherchons recherche_(?:de|du|d|en) cerco cerca cerchiamo cercando busco busca buscamos buscando procuro procura_(?:o|a|de|do|da)
     procurando zoek zoekt zoeken szukam szuka szukanie hledam hleda hledani 探す 探し 探索中 搜索 寻找`,
);

/** Not calm yet is no failure while waiting: `unsettled, held until it settles`. */
const UNSETTLED = wordList('unsettled not_settled_yet neustalen* niespok*').expression('gu');

/** The words without those for what is not calm yet. */
export const withoutUnsettled = (words: string): string => words.replace(UNSETTLED, ' ');

const OVER: readonly Motion[] = ['find', 'stop', 'did', 'fail', 'lose', 'abort'];

/** Negations. */
export const NEGATION = wordList(`${allWords(NEGATION_WORDS)} ${furtherWords('negation')}`);

/** `Estabilizando`, `a estabilizar`; and `překlopeno`, `wyśrodkowany`, `naświetlono`. */
const GERUND = /(?<![a-z])(?:[a-z]{3,}(?:ando|iendo|endo|indo)|a [a-z]{3,}[aei]r)(?![a-z])/gu;
const PARTICIPLE = /(?<![a-z])[a-z]{3,}(?:eno|any|o[wv]an[aoe]|lon[aoey])(?![a-z])/gu;

/** Whether a verb in such a form names the subject of a line. */
function isVerbIn(words: string, form: RegExp): boolean {
  const found: readonly string[] = words.match(form) ?? [];
  return found.some((word) => SUBJECTS.some(({ id, strong }) => id !== 'noise' && strong.test(word)));
}

/** Verbs of beginning in the polite past of Japanese. */
const HAS_BEGUN = /(?:始め|始まり|開始し|開始され)ました/gu;

/** `off=562"`, `off by 3 px`: a distance; nothing is switched off. */
const OFF_BY = /(?<![\p{L}\p{N}])off(?:\s?=\s?|\s+by\s+)[-+~]?#/iu;

/** `I was idle 112 s`: the wait is over. */
const HAS_WAITED = /\b(?:was|were|been|had) (?:idle|waiting)\b/gu;

/** `Belichtung 3 an, Ha`, at the end of a clause; without a number it may as well be a state. */
const SWITCHED_ON = /(\p{L}{3,})\s+[#…\d]+\s+(?:an|on)\s*(?:$|[,;:.!)→–])/iu;
const SWITCHED: ReadonlySet<string> = new Set(['exposure', 'guiding']);

/** Whether exposing or guiding is on; a camera that is on need not expose. */
function isSwitchedOn(wording: string): boolean {
  const noun = plainWords(SWITCHED_ON.exec(wording)?.[1] ?? '');
  return noun !== '' && SUBJECTS.some(({ id, strong }) => SWITCHED.has(id) && strong.test(noun));
}

/** `Slew to NGC 281`, `Schwenk zu M 33`: where the mount goes to. */
const TOWARDS = /\p{L}\s+(?:to|zu|nach|naar|till|til|do|ku?)\s+[#…]$/iu;
const SLEW = SUBJECTS.find(({ id }) => id === 'slew');

/** The motions named by the words and marks of a line. */
export function motionsIn(wording: string, written: string): Set<Motion> {
  const words = (OFF_BY.test(wording) ? written.replace(/\boff\b/, ' ') : written).replace(HAS_WAITED, ' ');
  const motions = new Set<Motion>();
  for (const [motion, pattern] of Object.entries(MOTIONS) as [Motion, WordList][])
    if (pattern.test(words)) motions.add(motion);
  for (const [pattern, motion] of MARKS) if (pattern.test(wording.trim())) motions.add(motion);
  // 始めました: it has begun, and is not over.
  const unbegun = words.replace(HAS_BEGUN, ' ');
  if (unbegun !== words && !MOTIONS.did.test(unbegun)) motions.delete('did');
  const calmed = withoutUnsettled(words);
  if (calmed !== words && motions.has('wait') && !MOTIONS.fail.test(calmed)) motions.delete('fail');
  // `Schwenke zu NGC 281` closes nothing.
  if (/(?:^|\s)zu\s+#/iu.test(wording)) motions.delete('close');
  // `Riprese sospese`: these are frames, not a resumption.
  if (/(?<![a-z])riprese (?:sospes|interrott|ferm|bloccat|in pausa)/.test(words)) motions.delete('resume');
  // `Estabilizando`: in progress, by its ending.
  if (motions.size === 0 && isSwitchedOn(wording)) motions.add('start');
  if (motions.size === 0 && TOWARDS.test(wording) && SLEW?.strong.test(words) === true) motions.add('doing');
  if (motions.size === 0 && isVerbIn(words, GERUND)) motions.add('doing');
  if (motions.size === 0 && isVerbIn(words, PARTICIPLE)) motions.add('did');
  if (READY_FOR.test(words)) {
    for (const over of ['stop', 'did', 'clear'] as const) motions.delete(over);
    motions.add('ready');
  } else if (READY_OR_DONE.test(words.trim())) motions.add('stop');
  if (SEEKING.test(words) && !OVER.some((motion) => motions.has(motion))) {
    motions.delete('arrive');
    motions.add('doing');
  }
  // `Das Feld wird versetzt`, and then `wurde versetzt`: the tense distinguishes begin and end.
  const isBeing = BEING_DONE.test(words) && !BEEN_DONE.test(words);
  for (const over of isBeing ? (['did', 'arrive', 'find'] as const) : [])
    if (motions.delete(over)) motions.add('doing');
  if (motions.size === 0 && isBeing) motions.add(NEGATION.test(words) ? 'fail' : 'doing');
  if (motions.size === 0 && BEEN_DONE.test(words)) motions.add('did');
  if (motions.size === 0 && NOW.test(words) && SETTLING?.strong.test(words) === true) motions.add('doing');
  // `Star not found`, `non vedo la stella`: what is not there is lost.
  if (motions.has('find') && !motions.has('lose') && NEGATION.test(words)) {
    motions.delete('find');
    motions.add('lose');
  }
  return motions;
}
