import type { EventName } from '../../../../model/index.js';
import { motionsIn, NEGATION, withoutUnsettled } from './motion-words.js';
import { MOTIONS, type Motion } from './motions.js';
import { plainWords } from './plain-words.js';
import { wordList } from './word-list.js';
import { NOTHING, SUBJECTS } from './subjects.js';
import { GIVES_UP, withoutReason, withUmlauts } from './main-clause.js';

/** The evidence of a line that names an object and an outcome, but no subject. */
export function moveEvidence(wording: string): Map<EventName, number> {
  const words = withUmlauts(plainWords(withoutReason(wording)));
  const motions = NOTHING.test(words) ? new Set<Motion>() : motionsIn(wording, words);
  if (motions.has('arrive') || motions.has('did') || motions.has('stop')) return new Map([['slew-end', 1.8]]);
  return motions.has('doing') || motions.has('start') ? new Map([['slew-begin', 1.8]]) : new Map();
}

/** The evidence of a line that names a filter and an outcome, but no subject. */
export function turnEvidence(wording: string): Map<EventName, number> {
  const words = withUmlauts(plainWords(withoutReason(wording)));
  const motions = NOTHING.test(words) ? new Set<Motion>() : motionsIn(wording, words);
  if (motions.has('doing')) return new Map([['filter-begin', 1.8]]);
  return motions.has('arrive') ? new Map([['filter-end', 1.8]]) : new Map();
}

/** Movement in pixels without a subject: `Moving 3 px to spread the noise`. */
export function shiftEvidence(wording: string): Map<EventName, number> {
  const motions = motionsIn(wording, withUmlauts(plainWords(wording)));
  if (!motions.has('doing')) return new Map();
  return new Map([[motions.has('stop') || motions.has('did') ? 'dither-end' : 'dither-begin', 1.8]]);
}

const FILE = SUBJECTS.find(({ id }) => id === 'frame')?.weak;

/** Whether a line with a file name says that something other than the file has closed. */
export function saysClosed(wording: string): boolean {
  const words = plainWords(wording).replace(/\bzu\b/g, ' ');
  return MOTIONS.close.test(words) && !MOTIONS.open.test(words) && FILE?.test(words) !== true;
}

/** Whether words say that a frame is kept. */
export function saysSaved(text: string): boolean {
  return SUBJECTS.some(({ id, strong }) => id === 'frame' && strong.test(withUmlauts(plainWords(text))));
}

/** Whether words are about a filter wheel. */
export function namesWheel(wording: string): boolean {
  const words = plainWords(wording);
  return SUBJECTS.some(({ id, strong }) => id === 'filter' && strong.test(words));
}

/** Whether a word names a possible subject. */
export function isSubject(word: string): boolean {
  const plain = plainWords(word);
  return plain !== '' && SUBJECTS.some(({ strong }) => strong.test(plain));
}

/** Whether words say that something is over, whatever it is. */
export function endsSomething(text: string): boolean {
  const motions = motionsIn(text, withUmlauts(plainWords(text)));
  return ['stop', 'arrive', 'did', 'fail', 'abort'].some((motion) => motions.has(motion as Motion));
}

/** Whether words say that something waits. */
export function waits(text: string): boolean {
  return motionsIn(text, withUmlauts(plainWords(text))).has('wait');
}

/** Whether words say that something was aborted. */
export function cutsShort(text: string): boolean {
  return motionsIn(text, withUmlauts(plainWords(text))).has('abort');
}

/** Whether a line with a file name says that no file resulted. */
export function saysLost(text: string): boolean {
  const words = withUmlauts(plainWords(text));
  const motions = motionsIn(text, words);
  return !saysSaved(text) && (motions.has('fail') || motions.has('abort'));
}

/** No file resulted, because it could not be written. */
const UNWRITTEN = wordList(
  `(?:not|never|cannot|can_t|unable_to|failed_to|fail_to)_(?:be_|been_|)(?:sav|writ|stor|wrote)*
     (?:write|writing|save|saving|storing)_(?:error|failed|failure)
     nicht_(?:gespeichert|geschrieben|gesichert|speichern|schreiben) (?:speichern|schreiben)_fehlgeschlagen
     (?:speicher|schreib)fehler
     pas_(?:ete_|pu_etre_|)(?:enregistr|ecrit|sauv)* impossible_d_(?:ecri|enregistr)*
     no_(?:se_pudo_|pudo_|se_ha_podido_|)(?:guard|escrib|grab)*
     non_(?:salvat|scritt)* impossibile_(?:salv|scriv)* nao_(?:foi_|)(?:salv|grav|guard)*
     niet_(?:opgeslagen|geschreven|bewaard) nie_(?:zapisan|udalo_sie_zapis)*
     保存失敗 保存に失敗 保存できません 保存失败 无法保存`,
);
/** Why; alone it is what a disk has, as in "disk full: 65 %". */
const FULL = wordList(
  `no_(?:disk_|)space disk_(?:is_|was_|)full no_room_(?:on|left) kein_(?:speicherplatz|platz)
     (?:platte|datentrager)_(?:ist_|)voll disque_(?:est_|)plein disco_lleno sin_espacio disco_pieno disco_cheio
     schijf_(?:is_|)vol dysk_pelny brak_miejsca 磁盘已满 容量不足`,
);

/** `Could not write wren-0004.fits: disk full`: its exposure is as good as aborted. */
export function addUnwritten(wording: string, evidence: Map<EventName, number>): void {
  const plain = withUmlauts(plainWords(wording));
  const isOfDisk = FULL.test(plain) && (evidence.has('frame-saved') || saysFailed(wording));
  if (!UNWRITTEN.test(plain) && !isOfDisk) return;
  evidence.delete('frame-saved');
  evidence.set('exposure-abort', Math.max(evidence.get('exposure-abort') ?? 0, 3.2));
}

/**
 * Whether words say that something, whatever it is, has failed or was given up; what is not calm yet has not failed.
 */
export function saysFailed(text: string): boolean {
  const motions = motionsIn(text, withoutUnsettled(withUmlauts(plainWords(text))));
  return motions.has('fail') || motions.has('abort');
}

/** `No errors`, `fehlerfrei`: nothing has failed. */
const FAULTLESS = wordList(
  `(?:no|zero|without|any|ohne|keine?|sans|aucune?|sin|ningun|senza|nessun|sem|nenhum)_(?:err|fehler|echec|fail)*
     (?:zonder|geen|bez|brak|zadna?)_(?:fout|bled|chyb)* error_free fault_free fehlerfrei`,
).expression('gu');

/** A reason without a result: the previous attempt may have failed. */
const ANEW = wordList(
  `wieder_versuch* (?:noch_|)einmal zweiter_versuch otra_vez jeszcze_raz again again_later retr* try_again nouvel_essai
     riprova nova_tentativa opnieuw znovu 重试 重試 再試行 直し`,
).expression('gu');
/** A poor result: words also used for weather and for judging frames. */
const BAD = wordList(
  `bad poor flat no_good mala malo mal zla zly zle mauvais* schlecht* slecht* spatn* cattiv* ruim fehlschl* nezdar*
   mislukk* desist* rate_sa rate_son a_rate nevysl* nezaostr* nevydar* fatal timeout limit too_long zu_lang te_lang
   時間切れ 実らず 好くない 不好 不良 나쁨 실패`,
);

/**
 * Whether words about something finished say that it failed: it was given up, or the expected condition did not occur,
 * `not calm after 60 s`.
 *
 * @param isByNot a plain `not` is sufficient
 */
export function saysInVain(text: string, isByNot = true): boolean {
  const words = withUmlauts(plainWords(text)).replace(FAULTLESS, ' ').replace(ANEW, ' ');
  const motions = motionsIn(text, words);
  const isLost = motions.has('fail') || motions.has('abort');
  return isLost || GIVES_UP.test(words) || BAD.test(words) || (isByNot && NEGATION.test(words));
}

/** Whether words say that something is no longer there. */
export function saysLoss(text: string): boolean {
  return MOTIONS.lose.test(plainWords(text));
}

/** Whether words state an outcome. */
export function saysMotion(text: string): boolean {
  const words = plainWords(text);
  return Object.values(MOTIONS).some((motion) => motion.test(words));
}

/** Whether a line only permits continuing, or asks for it: `via libera`, `all clear`, `may go`. */
export function permits(text: string): boolean {
  const motions = motionsIn(text, withUmlauts(plainWords(text)));
  return motions.size > 0 && [...motions].every((motion) => motion === 'clear' || motion === 'ready');
}

/** How informative words are by themselves: subject, outcome, or both. */
export function saidBy(text: string): number {
  return Number(namesSubject(text)) + Number(saysMotion(text));
}

/** Whether words name what a line is about. */
export function namesSubject(text: string): boolean {
  const words = plainWords(text);
  return SUBJECTS.some(({ id, strong }) => id !== 'noise' && strong.test(words));
}

/** `Feld wird zentriert` and `Feld ist zentriert` are two things. */
const HELPING =
  /^(?:wird|werden|wurden?|ist|sind|hat|worden|wordt|werd|is|are|was|has|have|being|been|est|sont|sta|viene|esta|fue|jest|nicht|not|niet)$/;

/** Whether a word is a technical term or states an outcome: it distinguishes lines and is not a value. */
export function isTelling(word: string): boolean {
  const plain = plainWords(word);
  if (plain === '' || /^\d/.test(plain)) return false;
  return (
    HELPING.test(plain) ||
    SUBJECTS.some((subject) => subject.strong.test(plain) || subject.weak.test(plain)) ||
    Object.values(MOTIONS).some((motion) => motion.test(plain))
  );
}

/** Whether a line only states what does not happen, or is planned. */
export function saysNothing(wording: string): boolean {
  return NOTHING.test(withUmlauts(plainWords(withoutReason(wording))));
}

/** Whether words say that everything waits, or resumes. */
export function holdsOrResumes(wording: string): boolean {
  const motions = motionsIn(wording, withUmlauts(plainWords(wording)));
  return ['wait', 'pause', 'resume', 'stop', 'danger'].some((motion) => motions.has(motion as Motion));
}

/** Whether the words are irrelevant chatter that occurs in every log. */
export function isNoise(wording: string): boolean {
  const words = plainWords(wording);
  return NOTHING.test(words) || SUBJECTS.some(({ id, strong }) => id === 'noise' && strong.test(words));
}

/** The main outcome that words state, whatever the subject. */
export type Course = 'begins' | 'ends' | 'waits';

const COURSES: Readonly<Record<Course, readonly Motion[]>> = {
  begins: ['start', 'doing', 'lose', 'wait', 'pause'],
  ends: ['stop', 'arrive', 'did', 'fail', 'abort', 'find', 'resume'],
  waits: ['wait'],
};

/** All outcomes that words state. */
export function courseOf(text: string): ReadonlySet<Course> {
  const motions = motionsIn(text, withUmlauts(plainWords(text)));
  const all = Object.keys(COURSES) as Course[];
  return new Set(all.filter((course) => COURSES[course].some((motion) => motions.has(motion))));
}
