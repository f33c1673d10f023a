import type { Words } from './languages.js';
import { MOUNT_WORDS } from './mount-words.js';

/**
 * Technical nouns and verbs for possible subjects, concept by language. They come from knowledge of the languages, not
 * from formats; rare or colloquial ones of a single language are in subjects.ts.
 */
export const SUBJECT_WORDS = {
  exposure: {
    en:
      'expos* shutter* sub subs subframe* light_frame integrat* shot shots light_acquisition ' +
      'image_acquisition taking_a_frame taking_frame taking_picture',
    de:
      'belicht* aufnahme* aufgenommen verschluss* einzelbild* lichtbild* belichten lichtframe* rohbild* ' +
      'auslosung fotografier*',
    fr:
      'pose poses prise_de_vue prises_de_vue obturateur expos* cliche* declench* temps_de_pose photographi* ' +
      'image_acquise acquisition_d_image',
    it: 'posa pose esposizion* espone espongo scatto scatti otturatore fotogramm* scatta scattat* ' + 'tempo_di_posa',
    es: 'toma tomas exposicion* expone exponiendo obturador disparo* fotograma* exponer expuest* fotografia*',
    pt: 'pose exposic* expoe obturador disparo* tomada_de_imagem fotograma* expor exposto fotografia*',
    nl: 'belicht* opname* sluiter* belichten fotografeer* sluitertijd',
    pl: 'ekspozycj* naswietl* klatk* klatek migawk* ujeci* ujecie ekspon* fotografuj*',
    cs: 'expozic* snim* zaverk* zaver zaber zabery osvit* exponov* expon* snimk* foceni',
    ja: '露光 露出 撮影 撮像 シャッター 枚目 コマ目 採光',
    zh: '曝光 拍摄 拍攝 快门 快門 出片 收光 采集 拍第 出图',
    ko: '노출 촬영 셔터 촬상 찍는',
  },
  frame: {
    en: 'saved stored written wrote filed put_away on_disk persisted on_the_disk in_the_can recorded_as ' + 'filed_as',
    de:
      'gespeichert abgelegt gesichert geschrieben weggeschrieben abgespeichert auf_platte weggespeichert ' +
      'speicherung speichern abspeichern wegschreiben ' +
      'auf_der_platte archiviert',
    fr:
      'enregistr* sauvegard* ecrit ecrite ecriture archive* stocke* sur_disque sur_le_disque sauve_sur sauvee ' +
      'mis_sur_disque range_sur rangee',
    it:
      'salvat* salvo scrittura scritto scritta memorizzat* archiviat* su_disco sul_disco registrat* messo_su_disco ' +
      'depositat*',
    es:
      'guardad* escritura almacenamiento guarda grabad* almacenad* archivad* escrit* en_disco guardo ' +
      'registrad* a_disco al_disco',
    pt:
      'guardad* guarda gravacao armazenamento gravad* armazenad* arquivad* escrit* no_disco em_disco guardo ' +
      'registad* registrad* ' +
      'para_o_disco',
    nl:
      'opslag opslaan wegschrijven opgeslagen bewaard weggeschreven geschreven opgeborgen op_schijf vastgelegd ' +
      'bewaar bewaart ' +
      'naar_schijf',
    pl: 'zapisan* zapisuj* zachowan* odlozon* zarchiwiz* na_dysku zapisuje zgran* utrwalon* na_dysk',
    cs: 'ulozen* ukladani ulozil* zapsan* zapsal* archivovan* na_disku ukladam ulozim na_disk',
    ja: '保存 書き込み 書込 格納 収めた 記録 書き出し 書出し 収納',
    zh: '保存 存盘 写入 存档 存储 落盘 已存 存好 写盘 归档 入库',
    ko: '저장 보관',
  },
  dither: {
    en:
      'dither* nudg* jump jumps jitter* jiggl* random_step random_offset small_offset step_aside scoot* ' +
      'scatter scattering random_shift random_move small_move little_move wiggle* hopping stagger* joggl*',
    de:
      'dither* versatz* versetz* verschieb* verschub* schubs* rutsch* zufallsversatz kleiner_sprung ' +
      'zufallsschritt* streuschritt* verruck* seitensprung* wackler',
    fr:
      'dither* decal* sautill* petit_saut pichenette* pas_de_cote secousse* tramage micro_deplacement ' +
      'deplacement_aleatoire pas_aleatoire saut_aleatoire decalage_aleatoire tremblot*',
    it:
      'dither* spintarell* saltell* balzo balzi piccolo_spostamento scossett* sobbalz* micro_spostamento ' +
      'salto_casuale spostamento_casuale passettino sussult*',
    es:
      'dither* meneo* menea* empujon* saltit* brinco* brinca* vaiven sacudid* corrimiento* salto_aleatorio ' +
      'pasito desplazamiento_aleatorio microdesplaz* desplazo',
    pt:
      'dither* saltinho* saltit* sacud* empurr* abana* abano passinho* deslocamento_aleatorio ' +
      'salto_aleatorio passo_aleatorio micro_deslocamento deslocad*',
    nl:
      'dither* opschuiv* opgeschoven verschuiv* verspring* duwtje* sprongetje* stapje* zetje* hupje* ' +
      'willekeurige_sprong sprong kleine_sprong hopje',
    pl:
      'dither* przesuni* przesuw* szturch* podskok* odskok* kroczek potrzasn* losowy_ruch ' +
      'losowe_przesuniecie przeskok* drgniec*',
    cs: 'dither* posun* popos* poskok* postrc* rozhoz* nahodny_posun nahodny_skok nahodny_krok uskok* drcn*',
    ja: 'ディザ ずらし ずらす ずらした 小移動 微小移動 ランダム移動 位置ずらし 揺さぶり',
    zh: '抖动 抖動 微移 挪动 错位 移位 轻移 随机移动 随机偏移 错开 微动',
    ko: '디더 흔들기 미세_이동 살짝_이동',
  },
  settling: {
    en:
      'stable unstable settl* stabiliz* stabilis* steady steadied ' +
      'calm* quieten* damp* damping die_down dies_down toleran* ' +
      'unsettled unsteady restless stilled ring_down ringing_down',
    de:
      'pendelt_(?:sich_)?(?:aus|ein) beruhig* ruhig einschwing* ausschwing* eingeschwungen ausgeschwungen ' +
      'schwingt schwingt_aus ' +
      'schwingt_ein abkling* abgeklungen einpendel* ausgependelt zur_ruhe toleranz* unruhig* nachwipp* ' +
      'stillstand',
    fr: 'stabil* calm* amort* apais* tranquill* retour_au_calme toleran* instable* immobile',
    it: 'stabil* assest* calm* smorz* acquiet* tranquill* tolleran* instabil* placat* quiete',
    es:
      'estable estabil* asent* asient* calma calmad* amortig* sosieg* soseg* tranquil* toleran* inestab* ' +
      'reposad* quieto',
    pt:
      'estavel estabil* assenta* assentou acalm* calmo calma amortec* sosseg* tranquil* toleran* instav* ' +
      'quieto serenou',
    nl:
      'stabiel stabilis* kalm* rustig tot_rust bedaar* uittril* uitril* uitgetrild uitdemp* uitgedempt demping ' +
      'toleran* onrustig* onstabiel* uitslinger*',
    pl: 'stabil* ustabil* uspok* spokoj* ucich* wytlum* wycisz* toleran* niestabil* niespokoj*',
    cs: 'stabil* ustal* uklid* uklidn* zklidn* utlum* utich* toleranc* nestabil* neklid*',
    ja: '安定 静定 整定 収束 落ち着 静ま 収ま 許容 不安定 静止',
    zh: '稳定 穩定 平稳 稳住 平静 静下 容差 公差 不稳 静止',
    ko: '안정 진정 가라앉',
  },
  focus: {
    en: 'focus* refocus* sharpness best_focus hfr hfd fwhm autofocus* focuser_run focus_run focus_hunt',
    de:
      'fokus* scharfstell* scharfgestellt nachfokus* schaerfe scharfe scharf* brennpunkt* autofokus* ' +
      'scharfsuche fokusfahrt fokussuche',
    fr: 'mise_au_point focalis* nettete* refocalis* foyer autofocus* autofocal* faire_le_point ' + 'refaire_le_point',
    it: 'fuoco messa_a_fuoco focheggi* rifocheggi* nitidezza autofocus* rimessa_a_fuoco ricerca_del_fuoco',
    es: 'enfoc* enfoque* reenfo* foco nitidez autofoco autoenfo* busca_foco buscar_foco',
    pt: 'foco foca focar focad* focou focag* focaliz* refoc* nitidez autofoco procura_do_foco refocagem',
    nl: 'scherp* scherpstel* focusser* herfocus* brandpunt* autofocus* scherpte* scherpzoek*',
    pl: 'ostrosc* ognisk* zognisk* wyostrz* ostrzen* autofokus* fokus*',
    cs: 'ostren* zaostr* ostrost* doostr* preostr* ohnisk* autofokus* fokus*',
    ja: 'ピント 合焦 焦点 フォーカス オートフォーカス ピント合わせ',
    zh: '对焦 調焦 调焦 焦点 聚焦 合焦 自动对焦 找焦',
    ko: '초점 포커스 합초',
  },
  filter: {
    en: 'filter* filterwheel* wheel* passband* bandpass* filter_slot filter_swap',
    de: 'filter* filterrad* farbrad* filterwechsel* filterplatz* farbfilter* bandpass*',
    fr: 'filtre* roue roue_a_filtres porte_filtre* carrousel porte_filtres bande_passante',
    it: 'filtro filtri ruota portafiltri ruota_portafiltri cambio_filtro banda_passante carosello',
    es: 'filtro filtros rueda portafiltros carrusel banda_de_paso',
    pt: 'filtro filtros roda porta_filtros carrossel banda_passante',
    nl: 'filter* filterwiel* filterwissel* wiel kleurfilter* filterpositie carrousel',
    pl: 'filtr filtra filtrow* filtry kolo_filtr* kola_filtr* karuzel* pasmo_filtra',
    cs: 'filtr filtru filtry filtrove* kolo_filtr* kola_filtr* karusel* vymena_filtru',
    ja: 'フィルタ フィルター ホイール フィルタ交換',
    zh: '滤镜 濾鏡 滤光 滤片 滤轮 转轮 轮盘 换滤镜 滤镜轮 换片',
    ko: '필터',
  },
  ...MOUNT_WORDS,
} as const satisfies Readonly<Record<string, Words>>;
