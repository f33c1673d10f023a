import type { Words } from './languages.js';

/** What a line says where nothing begins or ends, concept by language: its other words are about something else. */
export const CHATTER_WORDS = {
  /** Devices come and go on their cables. */
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
  },
  /** The guiding learns how the mount moves. */
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
  },
  /** What goes on has not ended yet. */
  still: {
    en:
      'not_yet ' +
      'still_(?:at|off|waiting|exposing|integrating|moving|settling|going|turning|focusing|running|open|not|no) ' +
      'still_(?:raining|cloudy|unsafe|closed|wet|bad|overcast) ' +
      'half_done halfway_through',
    de: 'noch_nicht immer_noch weiterhin_(?:nicht|kein|bewolk|unsicher) zur_halfte halbzeit',
    fr: 'pas_encore toujours_pas a_mi_chemin a_la_moitie mi_pose',
    it: 'non_ancora ancora_fuori a_meta',
    es: 'todavia aun_no a_la_mitad',
    pt: 'ainda a_meio_da metade',
    nl: 'nog_niet nog_steeds halverwege',
    pl: 'jeszcze_nie wciaz nadal w_polowie',
    cs: 'jeste_ne stale porad v_polovine',
    ja: 'まだ 途中 半分',
    zh: '尚未 还没 仍在 仍未 过半 一半',
  },
  /** What waits in line has not begun. */
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
  },
  /** What is only planned. */
  planned: {
    en: 'scheduled planned upcoming due_in will_(?:refocus|dither|flip|focus|start|stop|follow)',
    de: 'geplant vorgesehen demnachst fallig',
    fr: 'prevu prevue prevus planifie planifiee bientot',
    it: 'previsto prevista previsti pianificat* fra_poco',
    es: 'previsto prevista previstos planificad* programad*',
    pt: 'previsto prevista previstos planead* agendad* em_breve',
    nl: 'gepland verwacht straks binnenkort',
    pl: 'planowan* zaplanowan* wkrotce',
    cs: 'planovan* naplanovan* brzy za_chvili',
    ja: '予定 まもなく',
    zh: '计划中 预定 即将 预计',
  },
} as const satisfies Readonly<Record<string, Words>>;

/** What turns a word into its opposite. */
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
};
