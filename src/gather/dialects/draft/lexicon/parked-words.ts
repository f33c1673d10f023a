import { furtherWords } from './further/index.js';
import { allWords } from './languages.js';
import { wordList } from './word-list.js';
import { TROUBLE_WORDS } from './trouble-words.js';

/** A mount being parked, or sent home, does not slew to a target. */
export const PARKED = wordList(
  `home homing heimfahrt heimwarts nach_hause zuhause maison retour_au_port amarre* a_casa em_casa naar_huis thuis
    w_domu
   do_domu domov domu 回家 帰還 stowed in_ruhe au_repos a_riposo en_reposo em_repouso
   for_the_night fur_die_nacht pour_la_nuit per_la_notte por_la_noche pela_noite voor_de_nacht na_noc
   parkstellung ruhelage ruhestellung grundstellung heimposition position_de_(?:parc|repos) posizione_di_riposo
   posicion_de_reposo posicao_de_repouso parkeerstand ruststand pozycj*_parkow* parkovac* berth
   park parks parked parking parkt geparkt parkpos* parcheggi* aparc* estacion* parqu* garer gare_ garee parkeren
   zaparkowan*
   parkowan* zaparkov* parkov* to_bed 停放 归位 パーク 格納 ${furtherWords('parked')}`,
);

/** Causes of a hold by name alone: opened and closed like records. */
export const PAUSE = wordList(
  'hold pause interruption* standby stand_by pausa espera attesa attente wachttijd przerw(?:a|y|e) prestavk(?:a|y|u) sospensione suspension suspensao 待機 等待',
);

/** Said of work that pauses; a shutter that is held open does not pause, and an interrupted exposure is aborted. */
export const SUSPENDED = wordList(
  `${allWords(TROUBLE_WORDS.pause).replace(/\b(?:held\$|unterbrochen|onderbroken|preruseno)/g, '')} ${furtherWords('pause')}`,
);

/** Says that continuing is not safe. */
export const UNSAFE = wordList(
  `unsafe not_safe danger* unsicher* nicht_sicher insegur* no_segur* dangereu* pas_sur* peligro* pericol* non_sicur*
    perigo* onveilig* niet_veilig niebezp* nebezp* 不安全 危険 危险 manda_parar all_stop`,
);
