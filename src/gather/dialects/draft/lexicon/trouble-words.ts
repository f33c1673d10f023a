import type { Words } from './languages.js';

/**
 * Causes and consequences of holds, concept by language: common verbs with the forms that logs use. They come from
 * knowledge of the languages, not from formats; rare or colloquial ones are in motions.ts.
 */
export const TROUBLE_WORDS = {
  wait: {
    en: 'wait* queueing queuing barrier rendezvous await* sitting_tight holding_for',
    de: 'wartet warten warte harren abwarten',
    fr: 'attend attente attendre patiente on_attend j_attends',
    it: 'attende attesa aspetta aspetto aspettando attendo si_attende',
    es: 'espera esperando aguarda espero esperamos a_la_espera',
    pt: 'espera esperando aguarda aguardando espero esperamos a_espera',
    nl: 'wacht wachten wacht_op afwachten',
    pl: 'czeka oczekiwan* oczekuj* czekam czekamy oczekiwanie',
    cs: 'ceka cekani ceka_se cekam cekame vyckav*',
    ja: '待ち 待つ 待機 待って',
    zh: '等待 等候 候 等着 等到 (?<!\\p{Script=Han})等(?=[抖微稳導导云雲天屋雨风風另对對安])',
    ko: '대기(?!열) 기다',
  },
  pause: {
    en:
      'pause* pausing suspend* held$ freeze frozen on_hold take_a_break takes_a_break taking_a_break break_ ' +
      'on_pause standing_by',
    de: 'pausiert angehalten ausgesetzt unterbrochen unterbrechung *pause macht_pause pausieren ruhepause',
    fr: 'pause suspends suspendre suspendu suspendue en_pause mis_en_pause mise_en_pause fait_une_pause',
    it: 'pausa interruzione sospendo sospes* sospensione in_pausa fa_una_pausa messa_in_pausa fermata_temporanea',
    es: 'pausa suspension pauso pausando en_pausa pausad* suspendid* hace_una_pausa descanso',
    pt: 'pausa suspensao em_pausa pausad* suspens* suspendid* faz_uma_pausa descanso',
    nl: '*pauze gepauzeerd onderbreking onderbroken stilgezet even_stil op_pauze neemt_pauze',
    pl: 'wstrzyman* zawieszon* pauza przerw(?:a|y|e) wstrzymuj* robi_przerwe',
    cs: 'pozastav* pauza prestavk* preruseno na_pauze dela_pauzu pozastavuj*',
    ja: '一時停止 休止 中休み 小休止 一休み',
    zh: '暂停 暫停 挂起 歇一 停一停',
    ko: '잠시_멈춤 일시_?정지 일시_?중지 보류 쉼',
  },
  resume: {
    en:
      'resum* unpaus* unfreez* unfrozen thaw* continues continued restored back_on on_again carry_on ' +
      'carries_on carrying_on goes_on off_pause',
    de:
      'fortgesetzt (?:betrieb|arbeit)(?:_wurde|_wird|)_aufgenommen wiederaufgenommen wieder_aufgenommen ' +
      'lauft_weiter geht_weiter ' +
      'wiederhergestellt mache_weiter fortgefuhrt fahre_fort geht_es_weiter wieder_aktiv',
    fr: 'reprise repris reprend relance retabli* on_reprend on_continue poursui* restaur*',
    it:
      'si_torna_a* torniamo_a* ripreso ripresa riprende riprendo ricominci* ripristin* si_riprende si_continua ' +
      'prosegu*',
    es:
      'levantad* volvemos_a* reanud* retoma retomad* continua se_reanuda restablec* restaur* seguimos sigo prosig* ' +
      'se_retoma',
    pt: 'levantad* voltamos_a* retom* recomec* continua prossegue restabelec* restaur* retomamos prosseg*',
    nl: 'hervat hervatten gaat_verder vervolgd hersteld weer_aan doorgaan gaat_door',
    pl: 'wznow* wznaw* kontynu* przywroc* dalej_jazda kontynuujemy',
    cs: 'obnoven* pokracuj* obnovuj* obnov* jede_dal jedeme_dal',
    ja: '再開 続行 復旧 再始動 続け',
    zh: '恢复 恢復 继续 繼續 接着 重新开始',
    ko: '재개 다시_시작 계속 해제',
  },
  lose: {
    en: 'lost lose loses losing vanish* disappear* absent gone_missing lost_sight out_of_view nowhere',
    de: 'verloren verliert verschwunden weg nicht_zu_sehen entglitten ausser_sicht',
    fr: 'perdu perdue perd disparu* absente introuvable plus_visible perdue_de_vue',
    it: 'perso persa perde sparit* assente scomparsa introvabile scappata non_si_vede',
    es: 'perdid* pierde desaparec* ausente no_se_ve se_pierde fuera_de_vista',
    pt: 'perdid* perde desaparec* ausente nao_se_ve fugiu fora_de_vista',
    nl: 'kwijt verloren verdwenen uit_beeld niet_te_zien',
    pl: 'zgubion* utracon* zniknel* nie_widac zgubil*',
    cs: 'ztracen* ztratil* zmizel* neni_videt zmizela',
    ja: '見失 喪失 消失 見えない 消えた',
    zh: '丢失 丟失 失去 消失 跟丢 看不见 不见',
    ko: '놓침 놓쳤 잃음 잃었 사라짐 사라졌 유실',
  },
  find: {
    en: 'found find visible recovered reacquired back_again spotted in_view_again back_in_view',
    de: 'gefunden sichtbar wiedergefunden wieder_da wieder_sichtbar wieder_im_blick wieder_zu_sehen',
    fr: 'trouve* visible retrouve* revenue de_nouveau_visible reapparu*',
    it: 'trovat* visibile ritrovat* rivedo rivist* tornata di_nuovo_visibile riappars*',
    es: 'encontrad* visible recuperad* vuelve reaparec* recupero reaparece se_ve_de_nuevo',
    pt: 'encontrad* visivel recuperad* voltou reaparec* visivel_de_novo reapareceu',
    nl: 'gevonden zichtbaar teruggevonden weer_terug weer_zichtbaar opgepikt',
    pl: 'widoczn* znalezion* odnalezion* odzyskan* wrocil* znow_widac wrocila',
    cs: 'viditeln* nalezen* nasel vratil* opet_videt zase_viditeln* objevil*',
    ja: '再捕捉 発見 見つか 再び見え 戻った 戻りました 戻ってき',
    zh: '找到 找回 重新找到 又看到 回来了',
    ko: '되찾 다시_찾 찾음 찾았 재포착 다시_보임',
  },
  fail: {
    en:
      'fail* unsuccessful no_(?:[a-z]+_)?solution gave_up giving_up timed_out rejected did_not never_settled ' +
      'would_not no_good ' +
      'no_best',
    de:
      'gescheitert misslung* fehlgeschlagen aufgegeben zeituberschreitung n_i_o ging_nicht klappte_nicht ' +
      'ohne_erfolg',
    fr: 'echec echou* rate ratee manque manquee delai_depasse sans_succes pas_reussi',
    it: 'fallit* fallimento non_riuscit* rinuncio rinuncia senza_successo',
    es: 'fallid* fallo fracas* desist* no_se_pudo sin_exito no_logr*',
    pt: 'falh* fracass* desist* nao_conseguiu sem_sucesso nao_consegue',
    nl: 'mislukt mislukte opgegeven niet_gelukt lukt_niet lukte_niet zonder_succes',
    pl: 'nieudan* niepowodz* porazka nie_udalo nie_powiodl* bez_powodzenia',
    cs: 'nepodaril* selhal* selhani neuspes* nepovedl* bez_uspechu',
    ja: '失敗 断念 できず だめ',
    zh: '失败 失敗 放弃 超时 没成功 未能',
    ko: '실패 오류 시간_초과 못함 못했',
  },
  abort: {
    en:
      'abort* cancel* early prematur* cut_short broken_off killed thrown_away discarded stopped_early closed_early ' +
      'stopped_short halfway',
    de: 'abgebrochen abbruch breche bricht verworfen vorzeitig weggeworfen abgewurgt',
    fr: 'interromp* interrompue abandonn* annul* ecourte* prematur* jetee',
    it: 'interrott* abortit* annullat* troncat* scartat* anzitempo',
    es: 'abortad* cancelad* interrumpid* descartad* a_medias antes_de_tiempo cortad* corto_la',
    pt: 'abortad* cancelad* interrompid* descartad* cortad* antes_do_tempo',
    nl: 'afgebroken geannuleerd voortijdig vroegtijdig weggegooid afgekapt',
    pl: 'przerwan* anulowan* przedwczesn* odrzucon*',
    cs: 'prerusen* zrusen* predcasn* zahozen*',
    ja: '中断 中止 打ち切 破棄 途中終了 打切',
    zh: '中止 中断 取消 提前结束 作废 丢弃',
    ko: '중단 취소 폐기 버림',
  },
  ready: {
    en: 'ready',
    de: 'bereit',
    fr: 'pret prete prets pretes',
    it: 'pronto pronta pronti pronte',
    es: 'listo lista listos listas',
    pt: 'pronto pronta prontos prontas',
    nl: 'gereed',
    pl: 'gotow gotowy gotowa',
    cs: 'pripraven*',
    ja: '準備',
    zh: '就绪 准备',
    ko: '준비',
  },
  danger: {
    en: 'unsafe danger*',
    de: 'unsicher gefahr',
    fr: 'danger dangereux',
    it: 'pericolo pericolos*',
    es: 'peligro inseguro',
    pt: 'perigo inseguro',
    nl: 'onveilig gevaar',
    pl: 'niebezp*',
    cs: 'nebezp*',
    ja: '危険',
    zh: '危险',
    ko: '위험',
  },
  clear: {
    en: 'safe clear cleared blown_over good_again clearing',
    de: 'sicher aufgeklart freigegeben freigabe abgezogen verzogen',
    fr: 'degage passes passees securise dissip* eclairci* voie_libre',
    it: 'sereno passate passati sicuro schiarit* via_libera',
    es: 'despejado pasaron han_pasado seguro despej* escamp* via_libre',
    pt: 'limpo passaram seguro abriu_o_ceu via_livre',
    nl: 'veilig opgeklaard opgetrokken vrijgegeven',
    pl: 'przejasn* bezpieczn* ustapil* rozeszl*',
    cs: 'vyjasn* bezpecn* odtahl* rozplynul*',
    ja: '晴 安全 晴れた 抜けた',
    zh: '晴 安全 散去 转晴 放晴',
    ko: '맑음 갬 걷힘 개었',
  },
} as const satisfies Readonly<Record<string, Words>>;
