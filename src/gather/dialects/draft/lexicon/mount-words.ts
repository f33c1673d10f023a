import type { Words } from './languages.js';

/** The words for actions of mount and guider and for their environment, by language: see subject-words.ts. */
export const MOUNT_WORDS = {
  slew: {
    en:
      'slew* goto pointing_at pointing_to points_to heading_for heading_to sweep_to sweeps_to sweeping_to ' +
      'sweeps_over sweeping_over off_to off_we_go travelling_to traveling_to on_the_way_to on_its_way ' +
      'repoint* off_toward off_towards set_off_for sets_off_for setting_off_for set_out_for sets_out_for',
    de:
      'schwenk* anfahr* angefahren fahrt ansteuer* angesteuert zielfahrt unterwegs_zu unterwegs_nach ' +
      'fahre_zu auf_dem_weg_zu bricht_auf brach_auf aufbruch macht_sich_auf',
    fr:
      'ralli* pointage pointe depart_vers en_route_vers bascule_vers visee cap_sur en_chemin_vers ' +
      'deplacement_vers on_va_sur va_vers part_vers partit_vers parti_vers se_dirige_vers',
    it:
      'punto_(?:verso|su) punta puntato puntamento puntando viaggio muove_verso in_viaggio in_cammino rotta_per ' +
      'spostamento_verso parte_per partito_per partita_per si_dirige_verso',
    es:
      'apunta apuntado apuntando apuntamiento apuntad* rumbo_a viaje_a de_camino camino_de voy_hacia ' +
      'va_hacia sale_hacia parte_hacia partio_hacia salio_hacia',
    pt:
      'aponta apontado apontando apontar apontamento a_caminho_de viagem a_caminho vai_para ' +
      'vou_para rumo_a parte_para partiu_para',
    nl:
      'zwenk* gezwenkt richt_op op_weg_naar aanrijd* onderweg_naar op_weg ' +
      'rijdt_naar draait_naar vertrekt_naar vertrok_naar',
    pl:
      'najazd* najezdz* najech* przejazd* skierow* naprowadz* wycelow* w_drodze_do jade_do ' +
      'kieruj* celuj* rusza_do ruszyl_do',
    cs: 'najezd* najizd* najet* najel* prejezd* zamer* namir* natoc* na_ceste_k smeruj* miri_na vyrazi_k vyrazil_k',
    ja: '導入 指向 転回 向ける 向けて へ移動 へ向か 天体へ',
    zh: '指向 转向 轉向 前往 移向 寻星 回转 转到 移到 赶往',
    ko: '(?<!미세_)(?<!살짝_)이동 지향 향해 향하 겨눔 겨누',
  },
  centre: {
    en:
      'center* centre* centring plate_solv* recentr* recenter* in_the_middle fine_position* ' +
      'position_refine* position_refinement',
    de:
      'richtet?e?_fein_aus fein_ausgericht* zentrier* einmitt* eingemittet nachzentr* zielkorrektur* ' +
      'feinausricht* feinposition* in_die_mitte ' +
      'bildmitte feinjust*',
    fr: 'centrage centre_ centree recentr* cadrage recadr* astrometr* au_centre au_milieu pointage_fin ' + 'recalage',
    it:
      'centra centrato centrata centratura centrare centraggio ricentr* inquadr* al_centro in_centro ' +
      'puntamento_fine',
    es: 'centra centrado centrada centrando centrar recentr* encuadr* al_centro en_el_centro apuntado_fino',
    pt:
      'centra centrado centrada centrar centragem centralizar recentr* enquadr* ao_centro no_centro ' +
      'apontamento_fino',
    nl:
      'centreer* centreren gecentreerd hercentr* bijstel* bijgesteld in_het_midden in_het_centrum ' +
      'fijnricht* midden_zoek* zoekt_midden midden_gevonden',
    pl: 'centrow* wycentr* wysrodkow* srodkow* kadrow* na_srodku na_srodek wysrodk*',
    cs: 'vystred* stredi* stredeni centrov* vycentr* na_stred do_stredu uprostred',
    ja: '中央 センタリング 中心 位置合わせ 芯出し 中央へ 導入補正 中心へ',
    zh: '居中 对中 中心 定心 归中 中央 校正位置 位置校正 精确定位',
    ko: '중앙 중심 센터링 가운데',
  },
  flip: {
    en: 'flip* meridian pier_side other_side_of_the_pier side_of_pier crossing_over change_of_side',
    de:
      'meridian* umschlag* schlagt?e?_um umgeschlagen durchschlag* umschwenk* seitenwechsel* meridianwechsel* ' +
      'umklapp* ' +
      'umgeklappt',
    fr:
      'meridien* retournement retourn* basculement changement_de_cote passage_du_meridien change_de_cote ' +
      'inversion_de_cote',
    it: 'meridiano ribalt* capovolg* inversione cambio_lato cambio_di_lato passa_il_meridiano',
    es:
      'meridiano volteo voltead* voltea inversion cambio_de_lado cambia_de_lado paso_de_meridiano ' +
      'paso_por_el_meridiano',
    pt: 'meridiano inversao invert* viragem troca_de_lado muda_de_lado passagem_do_meridiano',
    nl: 'meridiaan* omklap* omgeklapt omslag* omgeslagen omslaan meridiaanwissel* wisselt_van_kant',
    pl: 'poludnik* odwrocen* odwrocon* przerzut* przerzuc* przelozen* zmiana_strony odwrotk*',
    cs: 'polednik* preklop* prelozen* pretoceni meridian* zmena_strany pretoc*',
    ja: '子午線 反転 反対側 フリップ 子午線越え 鏡筒反転',
    zh: '子午线 子午線 翻转 翻轉 中天 换边 过中天 翻面',
    ko: '자오선 뒤집 반전 플립',
  },
  guiding: {
    en:
      'guide guides guided guiding servo autoguid* guidance tracking_loop autoguider guider_loop guide_loop ' +
      'star_lock',
    de: 'nachfuhr* leitbetrieb leitung guiding autoguid* nachregel* nachfuhrregel* fuhrung leitregel*',
    fr: 'guidage autoguid* suivi guide guidee asserviss* boucle_de_guidage',
    it: 'guida autoguida inseguiment* guidat* anello_di_guida guidare guido',
    es: 'guia guiado guiando autoguia* seguimiento guiar guio guiamos lazo_de_guiado autoguiador',
    pt: 'guia guiagem autoguia* guiando seguimento guiar guiamento autoguiador',
    nl: 'gids gidsing volgen volgt volgregel* gidsen guiden geleiding bijsturing nasturing volglus nageleid*',
    pl: 'prowadzen* prowadzi guiding sledzen* autoguid* guidowan* prowadzic prowadze',
    cs: 'pointac* pointov* vedeni sledovan* navaden* vede navadi',
    ja: 'ガイド 追尾 オートガイド オートガイダー 自動追尾',
    zh: '导星 導星 导引 跟踪 追踪 自动导星 闭环 自动导',
    ko: '가이드 가이딩 추적 추미',
  },
  star: {
    en: 'star guide_star guidestar',
    de: 'stern leitstern leitsterns',
    fr: 'etoile etoile_guide',
    it: 'stella stellina stella_guida',
    es: 'estrella estrella_guia',
    pt: 'estrela estrela_guia',
    nl: 'ster volgster gidsster leidster',
    pl: 'gwiazda gwiazdy gwiazde gwiazdka',
    cs: 'hvezda hvezdu hvezdy hvezdicka',
    ja: 'ガイド星 星(?![径徑幅数數図图])',
    zh: '导引星 引导星 导星星点 星点',
    ko: '(?<![가-힣])별(?:이|을|은|의)?(?![가-힣])(?!_(?:크기|수|지름|개수|밝기))',
  },
  hold: {
    en:
      'roof dome cloud* overcast rain* unsafe safety weather_hold standby stood_down thunder* lightning ' +
      'storm* gusts fog mist bad_weather',
    de:
      'wolk* dach kuppel regen unwetter* sicherheit* zwangspause wetterpause gewitter sturm* schlechtwetter ' + 'hagel',
    fr: 'nuage* pluie toit coupole securite pause_meteo brouillard orage* mauvais_temps vent_fort',
    it: 'nuvol* pioggia tetto cupola sicurezza pausa_meteo nebbia temporale maltempo vento_forte',
    es: 'nube* nublad* lluvia techo cupula cubierta seguridad niebla tormenta* mal_tiempo viento_fuerte',
    pt: 'nuvem nuvens nublad* chuva teto telhado cupula seguranca nevoeiro tempestade mau_tempo vento_forte',
    nl: 'wolk* bewolk* regen dak koepel veiligheid weerpauze onweer storm slecht_weer mist',
    pl: 'chmur* zachmurz* deszcz* dach dachu kopul* bezpiecz* mgla burza zla_pogoda silny_wiatr',
    cs: 'oblac* mrak* dest strech* kopul* bezpec* mlha bourka spatne_pocasi silny_vitr',
    ja: '雲 雨 曇 屋根 ドーム 安全 霧 雷 強風 悪天候',
    zh: '云 雲 雨 多云 屋顶 圆顶 安全 雾 雷雨 大风 坏天气',
    ko: '구름 지붕 돔_ 안전 안개 천둥 강풍 빗방울 날씨',
  },
  session: {
    en: 'session sequence queue observing observation* operations the_night run_of_the_night',
    de: 'betrieb beobachtung* ablauf sitzung programm arbeit',
    fr: 'observation* seance sequence programme travail',
    it: 'osservazion* sessione sequenza programma lavoro si_ricomincia',
    es: 'observacion* sesion secuencia programa trabajo',
    pt: 'observacao observacoes sessao sequencia programa trabalho',
    nl: 'waarneming* sessie reeks programma werk',
    pl: 'obserwacj* sesja sesji sekwencj* program praca prace',
    cs: 'pozorovan* sekvenc* program prace relace',
    ja: '観測 作業 シーケンス',
    zh: '观测 觀測 作业 序列 任务 总控',
    ko: '관측 작업 시퀀스 세션',
  },
  cooler: {
    en: 'cool* chill* tec setpoint sensor_temp* cooldown peltier thermoelectric',
    de: 'kuhl* gekuhlt sensortemperatur chiptemperatur abkuhl* peltier*',
    fr: 'refroid* froid temperature_capteur mise_en_froid peltier',
    it: 'raffredd* refriger* freddo raffreddo peltier',
    es: 'enfri* refriger* frio consigna enfrio peltier',
    pt: 'arrefec* refriger* resfri* frio arrefeco peltier',
    nl: 'koeling koelt koel gekoeld koeler afkoel* peltier*',
    pl: 'chlodz* schlodz* ochladz* wychlodz* chlodze peltier*',
    cs: 'chlad* chlaz* ochlad* vychlad* ochlaz* chladim peltier*',
    ja: '冷却 ペルチェ 冷やす',
    zh: '制冷 冷却 致冷 製冷 降温 半导体制冷',
    ko: '냉각',
  },
} as const satisfies Readonly<Record<string, Words>>;
