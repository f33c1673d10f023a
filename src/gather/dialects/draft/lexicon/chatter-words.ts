import type { Words } from './languages.js';

/** Words of lines in which nothing begins or ends, concept by language: their other words are about something else. */
export const CHATTER_WORDS = {
  /** Devices connect and disconnect. */
  connected: {
    en:
      'connect* connection disconnect* reconnect* online offline handshake replies reply no_answer answered ' +
      'responding',
    de: 'verbunden verbindung* angeschlossen getrennt antwortet antwort',
    fr: 'connecte connectee connexion deconnect* reconnect* repond reponse',
    it: 'collegat* collegamento scollegat* connessione risponde risposta',
    es: 'conectad* conexion* reconexion desconectad* contesta responde respuesta',
    pt: 'conectad* conexao desconectad* responde resposta em_linha',
    nl: 'verbonden verbinding* aangesloten antwoord antwoordt',
    pl: 'polaczon* polaczeni* laczenie podlaczon* odpowiada odpowiedzi',
    cs: 'pripojen* spojeni odpojen* odpovida odpoved',
    ja: '接続 応答 切断',
    zh: '连接 連接 应答 响应 断开 联机',
    ko: '연결 응답 접속',
  },
  /** The guider calibrates how the mount moves. */
  calibration: {
    en: 'calibrat*',
    de: 'kalibrier*',
    fr: 'etalonn* calibr*',
    it: 'calibra* taratura',
    es: 'calibra* calibrando',
    pt: 'calibra* calibrando',
    nl: 'ijken ijking geijkt kalibr*',
    pl: 'kalibr*',
    cs: 'kalibr*',
    ja: '較正 (?<!位置)校正(?!位置) キャリブレーション',
    zh: '校准 校準 标定',
    ko: '보정 교정',
  },
  /** What is in progress has not ended yet. */
  still: {
    en:
      'not_yet ' +
      'still_(?:at|off|waiting|exposing|integrating|moving|settling|going|turning|focusing|running|open|not|no) ' +
      'still_(?:raining|cloudy|unsafe|closed|wet|bad|overcast) ' +
      'half_done halfway_through',
    de:
      'noch_nicht immer_noch ' +
      'weiterhin_(?:[a-z]+_)?(?:nicht|kein|bewolk|unsicher|wolk|regen|gewolk|geschlossen|zu) zur_halfte halbzeit',
    fr: 'pas_encore toujours_pas a_mi_chemin a_la_moitie mi_pose',
    it: 'non_ancora ancora_fuori a_meta',
    es: 'todavia aun_no a_la_mitad',
    pt: 'ainda a_meio_da metade',
    nl: 'nog_niet nog_steeds halverwege',
    pl: 'jeszcze_nie wciaz nadal w_polowie',
    cs: 'jeste_ne stale porad v_polovine',
    ja: 'まだ 途中 半分',
    zh: '尚未 还没 仍在 仍未 过半 一半',
    ko: '아직 여전히',
  },
  /** A retry of a device query begins nothing. */
  retried: {
    en: '(?:retr(?:y|ies|ying)|attempts?|another_try)_(?:[a-z]+_){0,3}(?:read[a-z]{0,8}|quer[a-z]{0,8}|poll[a-z]{0,8}|talk[a-z]{0,8}|contact[a-z]{0,8})',
    de: '(?:versuch|neuer_versuch|wiederholung)_(?:[a-z]+_){0,4}(?:zu_|aus)?(?:lesen|abzulesen|abzufragen|auszulesen)',
    fr: '(?:nouvel_essai|essai|tentative|reessai)_(?:[a-z]+_){0,3}(?:lire|lecture|interrog[a-z]{0,8})',
    it: '(?:tentativo|riprova|nuova_prova)_(?:[a-z]+_){0,3}(?:legger[a-z]{0,8}|lettura|interrog[a-z]{0,8})',
    es: '(?:reintento|reintentando|intento)_(?:[a-z]+_){0,3}(?:leer|lectura|consult[a-z]{0,8})',
    pt: '(?:tentativa|tentando)_(?:[a-z]+_){0,3}(?:ler|leitura|consult[a-z]{0,8})',
    nl: '(?:poging|nieuwe_poging)_(?:[a-z]+_){0,4}(?:lezen|uitlezen|uit_te_lezen|opvragen)',
    pl: '(?:proba|ponowna_proba)_(?:[a-z]+_){0,3}(?:odczyt[a-z]{0,8}|zapytan[a-z]{0,8})',
    cs: '(?:pokus|novy_pokus)_(?:[a-z]+_){0,3}(?:precist|cteni|nacist|nacteni)',
    ja: '読み?取り再試行 読み?出し再試行',
    zh: '重试读取 再次读取 读取重试',
    ko: '읽기_재시도 다시_읽기',
  },
  /** A queued item has not begun. */
  queued: {
    en: 'queued enqueued in_the_queue',
    de: 'eingereiht in_der_warteschlange',
    fr: 'en_file mis_en_file',
    it: 'in_coda messo_in_coda',
    es: 'en_cola en_la_cola',
    pt: 'em_fila na_fila',
    nl: 'in_de_wachtrij in_wachtrij',
    pl: 'w_kolejce do_kolejki',
    cs: 've_fronte do_fronty',
    ja: 'キューに 待ち行列',
    zh: '排队 队列',
    ko: '대기열',
  },
  /** Merely planned. */
  planned: {
    en:
      'scheduled planned upcoming due_in will_(?:refocus|dither|flip|focus|start|stop|follow) ' +
      'next_(?:dither|flip|refocus|focus_run)_(?:in|after|at|is|comes) expected_(?:in|at|after|soon)',
    de:
      'geplant vorgesehen demnachst fallig wird_(?:[a-z]+_){0,3}erwartet ' +
      'nachste[rsn]?_(?:versatz|dither|fokus[a-z]*)',
    fr: 'prevu prevue prevus planifie planifiee bientot',
    it: 'previsto prevista previsti pianificat* fra_poco',
    es: 'previsto prevista previstos planificad* programad*',
    pt: 'previsto prevista previstos planead* agendad* em_breve',
    nl: 'gepland verwacht straks binnenkort',
    pl: 'planowan* zaplanowan* wkrotce',
    cs: 'planovan* naplanovan* brzy za_chvili',
    ja: '予定 まもなく',
    zh: '计划中 预定 即将 预计',
    ko: '예정 계획',
  },
  /** Up next. */
  next: {
    en: 'next_[a-z]+_(?:in|at|after|due|run_in)',
    de: 'nachste[rsn]?_[a-z]+_(?:in|um|nach|gegen)',
    fr: 'prochaine?_[a-z]+_(?:[a-z]+_){0,3}(?:dans|apres|vers)',
    it: 'prossim[oa]_[a-z]+_(?:[a-z]+_){0,3}(?:tra|fra|alle|dopo)',
    es: 'proxim[oa]_[a-z]+_(?:en|dentro|a_las|tras|despues)',
    pt: 'proxim[oa]_[a-z]+_(?:em|dentro|daqui|as|apos)',
    nl: 'volgende_[a-z]+_(?:over|om|na)',
    pl: 'nastepn(?:e|a|y)_(?:[a-z]+_){1,3}(?:za|o|po)',
    cs: 'dalsi_(?:[a-z]+_){1,3}(?:za|v|po)',
    ja: '次回',
    zh: '下次 下一次',
    ko: '다음_번 다음번',
  },
  /** The remaining amount of something. */
  left: {
    en:
      'remaining still_to_go (?:frames|subs|exposures)_to_go left_to_(?:do|go|take|shoot) ' +
      '(?:frames|subs|exposures|shots|pictures|plates)_left',
    de: 'verbleiben* verbleibend* noch_ubrig fehlen_noch stehen_noch_aus',
    fr: 'restent il_reste restant restantes restants',
    it: 'rimangono mancano restano rimanenti restanti',
    es: 'quedan faltan restan restantes pendientes',
    pt: 'restam faltam restantes',
    nl: 'resteren resterend* nog_te_gaan te_gaan',
    pl: 'pozostal* do_konca',
    cs: 'zbyvajic* zbyva_(?:s|sekund|snimk[a-z]+|minut|min|expozic[a-z]+)',
    ja: '残り 残数',
    zh: '剩余 还剩 剩下',
    ko: '남은 남음 잔여',
  },
  /** Periodic queries, and the single points of a curve. */
  asked: {
    en:
      'poll* quer(?:y|ies|ied) status_(?:of|check|request) (?:focus|curve|sample)_(?:point|sample)s? shutter_count ' +
      'focuser_(?:moved|moving|moves|goes)_to guide_pulses? pulse_guide guide_cam(?:era)?_(?:gain|exposure|offset) ' +
      '(?:filter_)?offsets_(?:read|loaded|from) loading_(?:filter_)?offsets? time_to_(?:flip|meridian) ' +
      'meridian_(?:in|due) flip_in_(?:min|minutes|m|h|hours|s)',
    de: 'abgefragt abfrage* messpunkt* stutzpunkt* (?:umschlag|meridian)_in_(?:min|minuten|h|stunden)',
    fr: 'interrog* point_de_mesure (?:retournement|meridien)_dans',
    it: 'interrog* punto_di_misura (?:inversione|meridiano)_(?:tra|fra)',
    es: 'consultad* punto_de_medida punto_de_medicion (?:volteo|meridiano)_en_(?:min|minutos|h|horas)',
    pt: 'consultad* ponto_de_medida (?:inversao|meridiano)_em_(?:min|minutos|h|horas)',
    nl: 'opgevraagd meetpunt* meridiaan_over_(?:min|minuten|uur)',
    pl: 'odpytan* punkt_pomiar* (?:poludnik|odwrocenie)_za',
    cs: 'dotaz* bod_mereni (?:polednik|preklopeni)_za',
    ja: '問い合わせ 測定点 測定：',
    zh: '查询 轮询 测点 采样点',
    ko: '조회 질의',
  },
} as const satisfies Readonly<Record<string, Words>>;

/** Negation. */
export const NEGATION_WORDS: Words = {
  en: 'not no never cannot can_t couldn_t without where_did',
  de: 'nicht kein keine keinen nie ohne',
  fr: 'ne pas plus_de aucun aucune sans',
  it: 'non nessun nessuna senza',
  es: 'no ningun ninguna sin',
  pt: 'nao nenhum nenhuma sem',
  nl: 'niet geen nooit zonder',
  pl: 'nie brak bez',
  cs: 'neni bez zadny zadna nevidi nevidim',
  ja: 'ない ず なし せん',
  zh: '不 未 没 無 无',
  ko: '않 없음 없이 못_ 아님',
};
