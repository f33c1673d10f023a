import { CHATTER_WORDS } from './chatter-words.js';
import type { SubjectId } from './further/concepts.js';
import { furtherWords } from './further/index.js';
import { allWords } from './languages.js';
import { wordList, type WordList } from './word-list.js';
import { SUBJECT_WORDS } from './subject-words.js';

export type { SubjectId };

/** The words for a subject: those that name it, and those of the device or environment that only hint at it. */
export interface Subject {
  readonly id: SubjectId;
  readonly strong: WordList;
  readonly weak: WordList;
}

const subject = (id: SubjectId, strong: string, weak: string): Subject => ({
  id,
  strong: wordList(`${id === 'noise' ? '' : allWords(SUBJECT_WORDS[id])} ${strong} ${furtherWords(id)}`),
  weak: wordList(weak),
});

/** Says that something does not happen, or is planned. */
export const NOTHING = wordList(
  `no_matter never_mind macht_nichts no_change* unchanged nothing_to_do(?!_(?:until|till|before)) no_cloud*
     next_(?:plate|frame|sub|exposure|picture|focus)
     (?:plate|frame|sub|exposure|picture)_in$ sin_cambio* ohne_(?:anderung|wechsel) kein_wechsel
     keine_(?:anderung|wolkw*) sans_changement inchange* senza_cambi* nessun_cambi* sem_(?:mudancw*|nuvw*)
     sin_nub* pas_de_nuag* nessuna_nub* geen_(?:wissel|wolk)* bez_(?:zmian|chmur)* brak_(?:zmian|chmur)*
     ${Object.values(CHATTER_WORDS).map(allWords).join(' ')} ${furtherWords('chatter')}
     beze_zmen* bez_mrak* prochaine?_(?:pose|image) proxim[ao]_(?:toma|pose|foto|exposi)*
     prossim[ao]_(?:posa|foto)* nachste_(?:aufnahme|belichtung) volgende_opname
     nastepn(?:a|e)_(?:klatka|zdjec)* dalsi_snim* 次の露光まで 次の露出まで 下一[张張]曝光 变更なし 変更なし 変化なし 不变 無変化 雲なし 无云`,
);

/**
 * Technical nouns and verbs in English, German, French, Italian, Spanish, Portuguese, Dutch, Polish, Czech, Japanese,
 * Chinese and Korean: plain words (no accents), with the stems shared by all inflections.
 */
export const SUBJECTS: readonly Subject[] = [
  subject(
    'exposure',
    `光を入れ 遮光板 曝 gather*_photon* shutter_up aperto_l expozic* exponuj* exponov* naswietlam* belichte belichtet
      fotografuj* snima snimam snimani fotografe* fotografi* otturazione scatto scatti klik_klak 撮 露出 拍照 出片 expos*
      expon* expo exp exps exptime ex shutter* obturador* obturat* otturat* verschluss* belicht* belichting*
      aufnahme* lichtbild sub subs subframe* lightframe* light_frame pose poses posa pose* scatto scatti espos* exposic*
      expoz* naswietl* ekspoz* migawk* klatk* klatek zaver* zaverk* snim* sluiter* opname* toma tomas prise 露光 露出 曝光
      快门 快門 シャッター 撮影 拍摄 拍攝 単写 integrat* integration einzelbild* lichtaufnahme lumiere gather*_light gathering_light
      light_gathering collect*_light aperture* unveil* snapshot* plate_open opening_up opnam* naswiet* luz_entra
      entra_luz reading_it_out recoge_luz lichtsamml* sammle_licht sammelt_licht raccol*_luce luce_entra 撮像 开拍 感光 採光`,
    `camera* camara* kamera* kamer* kamery fotocamera aparat* cam capture* captur* frame* image* imagen* bild
      immagin* imagem obraz* zdjec* foto* photo* cliche* plate tir* disparo* 相机 相機 カメラ 图像 画像 imager sensor ccd
      picture* photon* light licht luz luce svetlo swiatlo toma beam_open`,
  ),
  subject(
    'frame',
    `写盘 存好 存下 入库 保管 しまう 収納 archivi* archiwiz* pohran* schowan* weggelegt eingelagert abgelegt verstaut
      remis_au_disque mis_au_disque messo_al_sicuro a_salvo almacen* arquiva* opgeborgen stowed shelved banked saved
      saves saving save stored stores store written writes wrote write kept keep keeps archived filed file_written
      guard* grabad* graba escrit* gespeichert speichert speichere gesichert geschrieben abgelegt lege_ab abspeicher*
      enregistr* sauveg* ecrit* ecrite rang* salvat* salva salv* scritt* registrat* gravad* grava arquivad*
      opgeslagen bewaard weggeschreven opslaan zapis* zachowan* uloz* uklad* zapsan* 保存 写入 書き込 書込 存储 儲存 落盘 存盘 tuck*
      stow* vault archiv* consign* put_away to_disk auf_platte sul_disco al_disco naar_schijf na_dysk na_disk 書庫 納め
      入库 归档 格納`,
    `file* datei* fichero* archivo* fichier* archivio arquivo* ficheiro* bestand* plik* soubor* ablage archiv* disco
      文件 ファイル 档案 likeness* picture* cupboard`,
  ),
  subject(
    'dither',
    `traca tracam tracil* tracen* tracon* tracamy szturcham edged edging edges nudging hopla hupf* hupfer sprung*
     spring* huepf* salt*_px brinc* brincos saut* sautille* hopje huppel* skok* poskok*
      skoczek chybn* wobble_step bump* cukn* cuknut* postrcen* strcen* tocco toccat* colpetto* empujonc* zarandeo*
      ruckel* 小跳 跳动 挪动 挪 轻移 ずれ dither* *versatz ditheri* nudg* ndg jitter* versatz* versetz* schubs* schubser*
      anstups* stups* verschieb* empuj* empujon* decal* decalag* bouscul* pichenette* spint* spintarell* scost*
      sposta_di empurr* deslocam* duw* duwtje* zetje verschuif* verschuiving* verspring* szturch* pchn* popchn*
      przesun* posun* postrc* stouch* 抖动 抖動 ディザ* ずら 微移 ditra* dth dthr kick* hop hops bump* sidestep* shuffl*
      rozptyl* odskok* tramad* desplazad* offsetting shove* saltinh* saltit* salto_de pulinh* vaiven sidestep* tweak*
      hitch* schubser* rempuj* sacud* ruck* rukje trqc* zamach* budge* displac* 微动 微動 偏移`,
    `spost* desvi* shake shakes shaking shaken shift* offset* decale moved_by desplaz* versch* push* step_aside jog
      jogs shuffle jostl*`,
  ),
  subject(
    'settling',
    `dampen* damped damping damp_ abkling* klingt_ab ausgeschwungen ruhe_ein zur_ruhe eingeschwung* sosego serenad*
      amort* calme calmo apaise repos_ quiete tranquill* kalm* bedaar* bedar* tot_rust wyciszen* cisza uspokaj*
      utich* zklidn* ustalov* 静まる 静まり 鎮ま 沈静 平稳 平穩 静下 安静 settl* stl calm* quiet* beruhig* ruhig* eingependelt
      einpendeln einschwing* eingeschwungen stabil* estabil* asent* asient* quieta quieto quietud calma tranquil*
      sosieg* sosega* apais* stabilis* assest* assentou acalm* sosseg* asserenad* rustig* gestabiliseerd tot_rust uspok*
      spokoj* ustabiliz* ustal* klid* uklid* ustalen* ustalil* 整定 安定 稳定 穩定 静定 稳 落ち着 steady steadied steadies
      still(?!_(?:not|no|to|at|off|on|in|open|closed|here|un[a-z]+|[a-z]+ing)\\b)
      wobbl* wiggl* tremor* vibrat* vibra* oscill* sway* quell* die_down dies_down come_to_rest comes_to_rest at_rest
      zitter* wackel* schwing* nachschwing* ausschwing* reposo temblor* tembl* tremb* oscil* trilling* uittril*
      uitgetrild drgan* kmit* chven* trepid* placid* 揺れ 収ま 振動 振动 平静`,
    `rust ruhe spok* patience serein* swinging`,
  ),
  subject(
    'focus',
    `bahtinov bien_net nettet* piquer mise_point naostr* zaostr* ostrost* scharfer schaerf* nachscharf* brennpunkt*
      refoco reenfo* rifuoc* afoca* refoca* foca focar focando fokusov* 調整点 ピン 聚焦 对焦点 清晰度 focus focusing focussing
      focused focussed focuses refocus* *focus *fokus *enfoque foc fcs shp fokus fokussiert fokussieren fokussierung
      fokuslauf scharf* scharfe nachfokus* enfoca enfocando enfocad[ao] enfocar enfoque* (?<!enquadramento_)(?<!encuadre_)afin* nitid* nitidez
      mise_au_point mises_au_point refaire_la_map net nettete mettre_au_point focheggi* fuoco messa_a_fuoco
      mette_a_fuoco focag* focaliz* foco foque scherp* scherpstel* ostrz* ostrosc* ostry ostre zaostr* doostr*
      ostren* ostrit 合焦 ピント 调焦 調焦 对焦 對焦 フォーカス sharp* crisp* hfr hfd fwhm vcurve v_curve sharpen* acuity sharper
      crisper pinpoint* 焦点 焦 清晰 尖鋭`,
    `focuser* enfocador* fokussierer* auszug* okularauszug* focheggiatore focuseur wyciag* vytah* focalizador* 调焦器
      drawtube drawtube tube_travel slimmed shrank`,
  ),
  subject(
    'filter',
    `szybk* sklick* sklo_ szklo_ vidrio* cristal_color kleurglas farbglas farbscheibe verrefiltre disque_de_filtr*
      tamburo* tambor_de_filtr* tarcza_filtr* karuzel* slide* 換片 换片 色替 色板 滤色 filter* filterrad* filtro* filtre* filtr
      filtra filtri filtru filterwheel* wheel* whl rueda* *(?<!g)rad radwerk roue* ruota* roda kolo kola kole wiel* *wiel
      filterwiel* 滤镜 濾鏡 滤光 フィルタ 转轮 轉輪 ホイール fw fwl fltr flt carousel* karusel* carrousel* revolver* turret* 輪 色輪 色轮 滤片
      フィルター panes pane_ color_wheel colour_wheel disc_of_glass`,
    `cristal* glass* verre* vetro szklo sklo pane in_the_beam beam vor_dem_chip`,
  ),
  subject(
    'slew',
    `venture* rumbo* orient* orienta orientar dirig* dirige drive* driving_to conduz* conduit naprowadz* obraca_sie
      jedzie_do jede_na najed* zamir* zamer* mierz* dojazd* przejazd* przejezdz* richte_auf richtet gerichtet ziele*
      zielfahrt anvisier* 寻找目标 指過 转到 轉到 向け slew* slw swp goto anfahr* fahre fahren fahrt fahrt_zu schwenk* anschwenk*
      schwenkt viaj* viaje apunta* apuntam* apuntad* ralli* ralliement* pointe pointage* aller_a punta* puntament*
      puntato apont* apontam* zwenk* najazd* najezdz* najechal* najel* najet* najizd* prejezd* presun* presouv*
      swing* travel* heading en_route move_to moves_to moving_to 指向 移動 移动 転回 導入 导入 goto 望向 前往 转向 轉向 swing*
      swung travers* point_to points_to steer_to voyage* 向ける 向き 振り向 移架`,
    `mount* montier* montura* monture* montatura* montagem* montering* montaz* montaze telescope* telescop* teleskop*
      架台 赤道儀 赤道仪 movim* mouvement* moviment* deplac* spostam* tgt target objetivo ziel cel cil mueve bouge muov*
      beweg* mnt mt embark* off_we`,
  ),
  subject(
    'centre',
    `mitte_gefunden zentrum platz_rucken nachzentr* afinar_encuadre centramento centraggio nacentr* vystred*
      usrodkow* precentr* pinpointing fine_pointing finepoint* fijar_centro mise_au_centre 中央 对中 居中 位置合わせ center*
      centre* centering centring centr* centra* zentrier* einmitt* eingemittet einmittung mittig encuadr* recentr*
      recadr* cadrag* inquadr* enquadr* centreer* gecentreerd centrow* wycentr* vycentr* vystred* stredi* stredeni
      plate_solv* platesolv* solv* astrometr* 居中 对中 中心 センタリング 解析 ctr framing in_the_middle amidship* mittensuche
      mittenlauf mittelpunkt* mitten* collat* dead_centre bang_in actually_pointing where_we_think 中央合わせ 中央 对准 對準`,
    `mid mitte medio milieu mezzo sternkarte* starmap* refine* aim* middle atlas astray`,
  ),
  subject(
    'flip',
    `chang*_sides? swap*_sides? switch*_sides?
      swap_over cross*_over crosses_the_pier over_the_pier pier_swap seitenwechsel wechselt_die_seite pfeilerseit*
      cambio_de_lado cambia_de_lado cambio_lato passe_de_l_autre passage_au_meridien passaggio_al_meridiano
      passagem_meridian* kantwissel* zmiana_strony zmena_strany klap_om klapt_om preklap* przelozon* przelozen*
     prehoz* 换边 換邊
      過子午 反転 flip* flp meridian* meridien* meridien umschlag* umgeschlag* durchschlag* umschwenk* voltea* volteo
      vuelta* da_la_vuelta retourn* bascul* ribalt* capovol* capovolg* inversion_ inversione virada viragem
      meridiano* omklap* omgeklapt omslaan odwroc* przerzuc* przerzut* poludnik* preklop* preloz* prekloz* 翻转 翻轉 反転
      子午線 子午线 other_side pier_side east_to_west tip*_over tipping tipped somersault* vuelco volcad* volcar otro_lado
      andere_seite altro_lato autre_cote outro_lado andere_kant druga_strone druhou_stran 反対側 中天 翻身 swap*_sides
      chang*_sides side_change (?:east|west)_side`,
    `over side seite lado cote lato strona strana meridian`,
  ),
  subject(
    'guiding',
    `bijstur* sturing stuurlus regelkreis* regelung* nachregel* loop_closed loop_opened loop_on loop_off autosledo*
      sledovan* sleduj* sledzen* sledzi pilotag* pilote corregg* correzion* correcion* correco* korekc* poprawk* 补正
      補正 閉ループ 闭环 guide guides guided guiding guidance autoguid* gd nachfuhr* nachfuhrung* leitung leitet leiten
      leitbetrieb leitvorgang leitkorrektur* guiad* guia guiag* guidag* suivi* autoguidag* insegu* inseguim* guida
      geleid* volg* volger volgen prowadz* pointac* pointov* pointer* vedeni nawigow* ガイド 导星 導星 追尾 追星 跟踪
      tracking_loop steer* corrections korrektur* autoguia* leash helm* tiller verfolg* seguimiento pointage_fin
      is_following following_it 追尾補正 案内 引导 gde gdr gid`,
    `guider* leitrohr* leitkamera track* tracking corr* pulse* lotse reins`,
  ),
  subject(
    'star',
    `gwiazdk* hvezdick* estrelinha estrellita stellina sterretje star guidestar guide_star estrella* stern *stern
      leitstern* etoile* stella estrela* ster gidster volgster gwiazd* hvezd* (?<![导導追跟])星(?![径徑幅数數図图]) astro
      lodestar leash_star leitlicht 案内星 ガイド星`,
    `stars sterne`,
  ),
  subject(
    'hold',
    `parken_bei unwetter* gewitter* storm* tempest* tormenta* tempesta* trovoada* onweer burz* bourk* gale windig
      windstop* too_windy sturm* forced_rest zwangsruhe pausa_meteo pauza_pogod* weerpauze 待避 退避 避雨 停工 复工 复工 雷 cloud*
      overcast rain* nube* nublad* lluvia* wolk* bewolk* regen nuag* pluie nuvol* pioggia nuvem nuvens chuva* wolken
      chmur* deszcz* zachmurz* oblac* oblak* zatazen* mrak* mrac* dest prsi roof* dome techo* cupula* dach* *dach
      kuppel* toit* coupole* tetto cupola telhado dak koepel strech* kopul* unsafe safe safety segur* insegur*
      sicher* unsicher* dangereu* securite securis* sicur* pericol* perigo* veilig* onveilig* niebezp* bezpiecz*
      nebezp* bezpec* hold holding(?!_(?:the_)?star) holds(?!_(?:the_)?star) halt halts halted postoj* prestoj*
      przestoj* parada arret_force pausa_forzada zwangspause* standby stand_by stand_down all_stop all_clear zatrzym*
      wstrzym* ophouden
      oponthoud espera_por wetterwacht* 云 雲 雨 屋顶 屋頂 屋根 ドーム 安全 危険 危险 天候 待機 weather_hold lockdown manda_parar da_paso
      tempo_ruim mauvais_temps maltempo 曇 雨天 bank_of_cloud rolled_in down*_tools vigil stand_by zwangshalt*
      waiting_it_out guardia_cerrada nubosidad`,
    `sky himmel ciel cielo ceu lucht niebo nebe obloha 空 espera warten attente attesa wachten weather* wetter* meteo*
      pogod* pocas* vigia* hlidac* straznik* stuj guardian* wachter* watch* waechter wachter sentinel* 天气 天氣 気象
      wind_limit tools 中断 carry_on go_again`,
  ),
  subject('session', '', 'sequencer main chief capo chef principal principale haupt* leitung_ hoofd glowny hlavni'),
  subject(
    'cooler',
    `chill* kuehl* kaelte* gekuhlt raffr* raffredda* enfri* resfri* chlodn* ochlaz* ochlad* 冷 冷却機 cool* kuhl*
      refriger* enfria* frio froid* refroid* raffredd* fredd* arrefec* koel* koeling chlodz* schlodz* chlad* chlaz*
      冷却 制冷 製冷 setpoint* cold sensor_temp ccd_temp chip_temp tec`,
    `matryc* capteur* sensore* snimac* センサー 素子 传感器 芯片 感光元件 chip temp* temper* sensor* soll consigna* consigne* want
     wants grad* 温度 溫度`,
  ),
  subject(
    'noise',
    `disk* dsk space platz* platte* festplatte* espacio espace spazio espaco schijf* miejsce misto dysk* heartbeat*
      hb alive lebenszeichen* latido* late vivo usb network* netz* netzwerk* reseau rete rede siec* sit dew* tau
      taupunkt* rocio* rosee* rugiada* orvalho* dauw* rosa_ros humid* feucht* humed* wilgot* vlhk* vocht* wind
      viento* vento wiatr* vitr vitru ventil* memory speicher_* cache ping ntp clock_sync battery* akku voltage*
      volt* spannung* rms average* mean_error error_medio erreur_moyenne errore_medio erro_medio mittlerer_fehler
      gemiddelde sredni* prumer* index cloud_cover cover bedeckung version starting_up ausgleich* filterausgleich
      compens* kompens* whl_off tick ticks tictac ambient* ausgang aussen* ausen air aire seeing tea coffee kaffee 磁盘
      磁碟 网络 湿度 風速 心跳 ディスク ハートビート heart あと 残り 予 preview pictures_left still_here awake 鼓動 残量 雑記 気温 脈 天気 天 owl fox
      kettle garden gate telegram zephyr* aether damp gust* breath* restplatz messwert vorschau foreseen`,
    `temp* free frei libre libero livre vrij wolne volne log clock reloj zegar hodin* horloge`,
  ),
];

const CAMERA = wordList(
  'camera* camara* kamera* kamer* kamery cam fotocamera aparat* sensor* ccd imager 相机 相機 カメラ',
).expression('gu');

/** Whether only the exposing device is named. */
export function namesOnlyCamera({ strong, weak }: Subject, words: string): boolean {
  return !strong.test(words) && !weak.test(words.replace(CAMERA, ' '));
}
