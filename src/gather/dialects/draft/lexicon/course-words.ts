import type { Words } from './languages.js';

/**
 * The progress of actions, concept by language: common verbs with the forms that logs use. They come from knowledge of
 * the languages, not from formats; rare or colloquial ones are in motions.ts.
 */
export const COURSE_WORDS = {
  open: {
    en: 'open opens opened opening reopen*',
    de: 'offnet geoffnet offen offne aufmachen',
    fr: 'ouvre ouvert ouverte ouverture s_ouvre ouvrir',
    it: 'apre aperto aperta apertura apro aprire si_apre',
    es: 'abre abierto abierta apertura abro abrimos abrir',
    pt: 'abre aberto aberta abertura abro abrimos abrir',
    nl: 'open opent geopend openen gaat_open',
    pl: 'otwart* otwier* otwor*',
    cs: 'otevr* otevir* rozevr*',
    ja: '開く 開いた 開放 開け 開けた',
    zh: '打开 开启 開啟 开门 拉开',
    ko: '열림 열기 열었 개방',
  },
  close: {
    en: 'close closes closed closing shut shuts shutting',
    de: 'schliesst geschlossen zu$ geht_zu ist_zu schliesse zugemacht',
    fr: 'ferme fermee fermeture ferme_ fermer se_ferme',
    it: 'chiude chiuso chiusa chiusura chiudo chiudere si_chiude',
    es: 'cierra cerrado cerrada cierre cierro cerramos cerrar',
    pt: 'fecha fechado fechada fecho fecho_ fechamos fechar',
    nl: 'sluit gesloten dicht sluiten gaat_dicht',
    pl: 'zamkn* zamyk* domkn*',
    cs: 'zavr* zavir* uzavr*',
    ja: '閉じ 閉めた 閉鎖 閉めて 閉まった',
    zh: '关闭 關閉 合上 关上 合拢',
    ko: '닫힘 닫기 닫았 닫음',
  },
  start: {
    en:
      'start* begin begins began begun commenc* initiat* launched engaged enabled underway switched_on ' +
      'let_me setting_off sets_off gets_going launching fired_up off_to off_we_go',
    de:
      'beginnt begonnen beginn gestartet startet anlauf angelaufen eingeschaltet ein$ setzt_ein los ' +
      'fangt_an angefangen beginne starte legt_los in_gang ' +
      '(?:nachfuhr|leit|regel|guiding|verfolg)[a-z]{0,9}(?:_wurde|_wird|_ist|)_aufgenommen',
    fr:
      'debut debute commence commencee commencent demarr* mise_en_route mis_en_route en_route$ entame* ' +
      'lance lancee enclench* commencer on_commence se_met_a mise_en_marche demarrage on_lance je_commence',
    it:
      'inizia inizio iniziat* comincia comincio cominciat* avviat* avvio parte partito partita acceso ' +
      'accesa si_comincia si_inizia incomincia in_moto attivat*',
    es:
      'empieza empezad* comienza comienzo inicio inicia iniciad* en_marcha arranca arrancad* encendid* ' +
      'empiezo arranco comienzan me_pongo_a empezamos puesta_en_marcha',
    pt:
      'comeca comecou comeco inicio inicia iniciad* arranca arrancou em_marcha a_andar liga$ ligad[oa](?!_ao?(?![a-z])) comecamos ' +
      'comeco_a a_comecar arranco',
    nl:
      'begint begonnen begin start gestart van_start aangezet aan$ ingeschakeld beginnen starten opgestart ' +
      'in_werking',
    pl:
      'start rozpocz* zaczyn* zaczet* poczatek uruchom* wlaczon* rusza ruszyl* zaczynam startuj* wlaczam ' +
      'uruchamiam',
    cs:
      'zacin* zacat* zacal* zacatek bezi spusten* spoust* start zapnut* zahajen* rozjet* zacinam spoustim ' +
      'zahajuj* startuj*',
    ja: '開始 始め 始ま 始動 起動 スタート 始める 着手 発進',
    zh: '开始 開始 启动 啟動 开动 启动中 动身 开工',
    ko: '(?<!다시_)시작 개시 착수 켜짐 켬',
  },
  stop: {
    en:
      'stop* end ends ended ending finish* done complete* over$ concluded switched_off wraps_up ceased ' +
      'ceases all_done shut_down',
    de:
      'fertig beendet ende endet abgeschlossen vorbei erledigt gestoppt ausgeschaltet (?<!schwingt_)aus$ ' +
      'hort_auf aufgehort zu_ende beende stoppe abgestellt',
    fr:
      'fini finie termine terminee accompli* complet acheve* fin arret arrete arretee coupe coupee stoppe* cesse ' +
      'cesser ' +
      'arreter j_arrete eteint eteinte',
    it:
      'finito finita fine completat* terminat* conclus* fermat* fermo spento spenta smette smesso finisce spengo ' +
      'fermo_ spegn*',
    es:
      'termina terminad* completad* acaba acabad* fin finaliz* detenid* parado parada apagad* dejo_de deja_de ' +
      'dejamos_de termino paro paramos hemos_acabado apago',
    pt:
      'termina terminad* completad* concluid* terminou acaba acabad* acabou fim conclui* parado parada desligad* ' +
      'deixo_de ' +
      'deixa_de termino paro paramos acabamos apago',
    nl:
      'klaar gedaan afgelopen beeindigd einde gestopt voltooid uit$ uitgezet houdt_op opgehouden stoppen ' +
      'gestaakt afgesloten',
    pl: 'koniec zakoncz* skoncz* gotow* zatrzyman* wylaczon* koncze konczymy przestaje zakonczon* wylaczam',
    cs: 'konec hotov* dokonc* skonc* ukonc* zastaven* vypnut* koncim prestav(?!k)* vypinam dokonceno',
    ja: '終了 完了 終わ (?<!一時)停止 済み 終えた 止める 止めた 停める',
    zh: '结束 結束 完成 (?<!一時)停止 完毕 做完 停下 关掉 收尾',
    ko: '끝 종료 완료 마침 마쳤 꺼짐 (?<!일시_?)정지',
  },
  grab: {
    en: 'grab* acquir* locked lock lock_on locked_on latched',
    de: 'erfasst eingefangen gefasst',
    fr: 'accroch* saisi saisie acquise',
    it: 'agganc* acquisit* catturat*',
    es: 'enganch* atrap* adquirid* cazad*',
    pt: 'agarr* apanhad* adquirid* engat*',
    nl: 'gepakt gevat vastgepakt beet',
    pl: 'chwyc* zlap* namierzon*',
    cs: 'zachycen* chycen* uchopen*',
    ja: '捕捉 捉え ロックオン',
    zh: '锁定 鎖定 捕获',
    ko: '포착 붙잡',
  },
  release: {
    en: 'releas* let_go dropped',
    de: 'losgelassen freigegeben',
    fr: 'relach* lachee',
    it: 'rilasci* mollat*',
    es: 'solt* suelta liberad*',
    pt: 'solt* largad* libertad*',
    nl: 'losgelaten vrijgegeven',
    pl: 'puszcz* zwolnion*',
    cs: 'pusten* uvolnen*',
    ja: '解放 放す',
    zh: '释放 放开',
    ko: '놓아줌 풀어줌',
  },
  arrive: {
    en:
      'in_focus best_focus is_in_the_(?:middle|centre|center) arriv* reached at$ ' +
      '(?:filter|wheel)_(?:set_to|is_now|now) in_place in_position ' +
      'on_target at_target landed got_there on_the_spot ' +
      'we_are_there here_we_are',
    de:
      'ist_in_der_mitte bester_fokus beste_scharfe scharf_bei eingelegt eingesetzt erreicht angekommen am_ziel ' +
      ' eingerastet in_position angelangt eingetroffen ziel_erreicht steht_auf sitzt',
    fr:
      'est_au_(?:centre|milieu) meilleure_mise_au_point meilleur_foyer meilleure_position arrive arrivee atteint ' +
      'atteinte en_place ' +
      'en_position sur_cible sur_la_cible y_est on_y_est',
    it:
      'e_(?:al|in)_centro miglior_fuoco fuoco_migliore arrivat* raggiunt* a_posto in_posizione sul_bersaglio ' +
      'ci_siamo giunto giunta',
    es:
      'esta_(?:en_el|al)_centro mejor_foco mejor_enfoque llega llegad* colocad* en_posicion en_su_sitio ' +
      'alcanzad* situad* en_el_objetivo ' +
      'ya_esta_alli llego ' +
      'hemos_llegado',
    pt: 'melhor_foco chega chegou chegad* colocad* em_posicao no_sitio atingid* no_alvo ja_esta_la chegamos',
    nl: 'beste_focus beste_scherpte aangekomen bereikt op_plaats op_zijn_plek in_positie aangeland op_doel ter_plaatse',
    pl: 'jest_na_srodku najlepsz* dotarl* osiagn* na_miejscu ustawion* na_pozycji u_celu dojech* na_celu',
    cs: 'je_(?:na_stredu|uprostred) nejleps* dorazil* dosazen* na_miste nastaven* v_poloze v_cili u_cile dojet*',
    ja: '到着 到達 定位置 着い 定位',
    zh: '到达 到達 到位 抵达 就位 到了 已到',
    ko: '도착 도달 자리_잡 자리잡',
  },
  doing: {
    en: 'move moving turn turning rotate rotating change changing going',
    de: 'dreht fahrt wechselt bewegt bewege',
    fr: 'tourne change deplace bouge',
    it: 'gira giro cambia muove muovo',
    es: 'gira cambia cambiando mueve muevo moviendo',
    pt: 'roda gira muda mudando move movo',
    nl: 'draait wisselt beweegt schuif schuift',
    pl: 'obraca zmienia jedzie rusza_o',
    cs: 'otaci meni jede pohyb',
    ja: '回転 切替 移動中',
    zh: '转动 切换 移动中',
    ko: '_중(?![가-힣]) [이촬출링딩]중(?![가-힣]) 교체 전환 회전',
  },
  did: {
    en: 'moved turned changed settled succeeded given applied executed performed achieved ok$',
    de: 'gedreht gewechselt gelungen geschafft ausgefuhrt durchgefuhrt geklappt in_ordnung i_o ok$',
    fr: 'tourne_ change_ reussi reussie faite effectue effectuee applique appliquee execute ok$',
    it: 'girato cambiato riuscit* fatto fatta eseguit* applicat* a_buon_fine ok$',
    es: 'girado cambiado logrado hecho hecha ejecutad* aplicad* conseguid* por_bueno ok$',
    pt: 'rodado mudado conseguido feito feita executad* aplicad* conseguid* ok$',
    nl: 'gedraaid gewisseld gelukt uitgevoerd toegepast in_orde ok$',
    pl: 'obrocon* zmienion* udan* zrobion* wykonan* powiodl* ok$',
    cs: 'otocen* zmenen* povedl* podaril* proveden* v_poradku povedlo ok$',
    ja: '成功 できた ました 良好 できました',
    zh: '成功 好了 已转 已换 已切 已更换 已移 执行完',
    ko: '됨 됐 되었 성공 했음 했습니다',
  },
} as const satisfies Readonly<Record<string, Words>>;
