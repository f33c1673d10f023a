import type { Motion } from './further/concepts.js';
import { furtherWords } from './further/index.js';
import { allWords, type Words } from './languages.js';
import { COURSE_WORDS } from './course-words.js';
import { wordList, type WordList } from './word-list.js';
import { TROUBLE_WORDS } from './trouble-words.js';

export type { Motion };

/** The words for each, concept by language. */
export const MOTION_WORDS: Readonly<Record<Motion, Words>> = { ...COURSE_WORDS, ...TROUBLE_WORDS };

/** Rare or colloquial words. */
const FURTHER: Readonly<Record<Motion, string>> = {
  open: `otwar* rozevr* ouvre ouvert aufgeht geht_auf gaat_open opengaat si_apre s_ouvre se_abre 開放 開く 拉开
     open opens opened opening abre abren abrir abrio abiert* auf offnet geoffnet offen aufgemacht ouv* apert* apre
     aperta abert* geopend otwart* otwar* otwier* otevr* otevir* uncover* 開(?!始) 打开 打開 开启
     unveil* uncap* open_up opening_up reveal* 開く 開け`,
  close: `geht_zu gaat_dicht si_chiude se_ferme se_cierra fecha zavr* zamkne 閉まる 合上 关门
     close closes closed closing shut shuts cierr* cerr* zu$ geschlossen schliess* zugemacht ferm* chius* chiud* fech*
     gesloten sluit dicht zamkn* zamyk* zavr* zavir* zavren* 閉 关闭 關閉
     veil* cover* sealed 閉じ 閉め`,
  start: `taken_up takes_up kicks_off kick_off set_going get_going under_way underway geht_los beginnend lance_
     part_ partenza salida in_gang gezet naczyna ruszy ruszam spousti pousti zapina 起動 动工 着手 开工
     start starts started starting begin begins began begun beginning commenc* launch* initiat* inici* empiez* empez*
     comienz* comenz* arranc* enclench* gestartet startet starte beginnt beginne begann begonnen anfang los
     debut* demarr* lanc* avvi* inizi* comec* gestart aanvang* begint rozpocz* zaczy* zaczet* wlacz* zahaj* zacat*
     zacin* spust* zapnut* zapn* 開始 开始 启动 啟動 開い turned_on switched_on is_on are_on guiding_on exposure_on shutter_on
     activ* aktiv* engag*
     enabl* running lauft laeuft angesprungen en_marche attiv* ativ* aan ingeschakeld go(?!_on) goes(?!_on)
     here_goes off_we embark* let_us lets_ let_s take*_off undertak* parte sale salen setzt_an starting another
     begint begonn* rusza zaczyna jde_na (?<!導|挿)入(?!力|れ|庫|り) 始め 始動 出発 here_we_go having_a_go have_a_go giving_the gives_the`,
  stop: `wrapped_up concluded dropped over_with is_over beschlossen vollendet abgetan rematad* terminat*
     finalizad* achev* afgerond voorbij skonczon* dokoncen* dokonal* 收工 结束了 完工 完 了$ 终
     stop stops stopped end ends ended ending finish* done complete* completed is_over all_over termin* acab* fin
     finaliz* finish deten* detien* parad* beendet fertig abgeschlossen gestoppt ende endet vorbei (?<!schwingt_)aus
     abgeschaltet
     acheve* arret* fini finie finis finit* conclus* conclu* spent* ferma fermat* desactiv* deslig* ligou_ encerr*
     klaar gestopt beeindigd einde uit uitgeschakeld zakoncz* koniec skoncz* wylacz* zatrzyman* ukonc* konec vypnut*
     dokonc* hotov* zastaven*
     終了 完了 结束 結束 完成 (?<!一時)停止 終 off(?!_(?:to|we|toward|towards|for)\\b)
     disabl* deactiv* quit quits
     consummat* accomplish* all_done in_the_bag time_s_up that_is_all over_and_done over$ over_at$ come_to_rest
     comes_to_rest termina acaba logra logrado lograda quieta quieto fertig zeit_um klar 切(?!替|り|換|换|到) 終わり 終える 済`,
  grab: `grab grabs grabbed agarr* gefasst erfasst holds_star holds_the_star holding_star locked_on lock_on locks_on
    latch* captured_star acquir* accroch* agganc* chwyt* schwyc* zlap* zachyc* chyt* gepakt gevonden_ster picked
    pick_up apanh* 捕捉 锁定 鎖定
     took_the holding hold_of got_hold takes_the has_picked prend_ 掴`,
  release: `releas* suelta* solt* losgelassen freigegeben let_go lets_go lache lacher* relach* rilasc* puszcz*
    wypuszcz* pusten* loslaten losgelaten larg* 放开 释放 解放
     let_go relieve* leash_off 離`,
  arrive: `gets_there at_its_place in_its_place am_platz am_ort sits_in en_su_sitio in_posizione no_lugar
     op_zijn_plaats op_plaats na_swoim_miejscu na_svem_miste stoi_(?:w|na) stoji_na
     staat(?!_(?:uit|klaar|gepland|te_|(?:op|in)_pauze)) (?<!l_)liegt(?!_(?:bei|vor|an_)) 就绪 到位 换好 着いた 着き
     arriv* reach* there in_place in_position lleg* encaj* eingerastet steht angekommen erreicht atteint* en_place
     puesto colocad*
     sur_place raggiunt* cheg* aangekomen bereikt dotar* osiagn* doje* dojel* dosaz* na_miejscu na_miste 到着 到达 到達 就位
     selected seleccion* ausgewahlt selectionn* selezion* selecion* gekozen wybran* vybran* clavad* landed lands
     locked inser* engage* obrocon* otocen* posicionad* position_reached
     ja_tem ya_tiene hat_jetzt heeft_nu ha_gia a_maintenant ma_juz ma_teraz uz_ma has_now now_has
     seated llega llego quelled_ in_the_beam in_the_middle amidships bang_in is_there happy (?<![接等])着(?!手) 整う we_ve_arrived`,
  doing: `shaking jostling shoving
     in_(?!posi)[a-z]+mento in_(?!posi)[a-z]+zione en_(?!posi)[a-z]+cion em_(?!posi)[a-z]+cao em_[a-z]+mento
     en_(?!fonct|posi)[a-z]+(?:ement|ation)
     exposing putting bringing setting_to dithering settling slewing centering centring focusing focussing
    refocusing flipping moving turning turns rotating rotates changing changes change selecting switching switch
    going nudging nudge sweeping driving aiming fahre fahrt faehrt dreht drehe drehen wechsel* wechsle
     einmitten stabilisieren scharfstellen gira giran girando tourne tournant cambi* chang* rota* zmien* zmian* meni*
     vymen* toci otac* draait draaien wissel* en_cours in_corso en_curso em_curso im_gange bezig w_toku probiha
     busca* suche* sucht cherche* cerca* procur* zoek* szuka* hleda* apuntando centrando enfocando exponiendo moviendo
     ruota* muove vai va_a va_su vers hacia towards heading 回転 切替 切り替え 转动 切换 更换 移動中 中(?![断止央心天斷]) pushing pushes
     empuja viaja afina dwa stupst stosst obraca* jede jedzie
     spinning spins rotat* swinging sharpening nudging tipping checking shuffling gathering next please wobbling 回す
     回る 向ける gaat_naar draait`,
  did: `shaken jostled shoved
     shifted damped quieted levelled compliet* sacudid* empurrad* enfocat* zatrzas* wygasz*
     utlumen* 了った ました 好了 成功
     exposed dithered settled slewed centered centred focused focussed refocused flipped moved turned rotated changed
     switched nudged swept pushed reussi* riuscit* gelungen geglueckt geslaagd success* zentriert eingemittet
     beruhigt fokussiert umgeschlagen gedreht gewechselt geschwenkt verschoben versetzt geschubst eingestellt
     centrad* enfocado enfocada estabilizad* girad* cambiad* empujad* movid* expuest* apuntad* centre_ centree*
     deplace stabilise* focalise* pointe_ centrato centrata spostato spostata ruotat* cambiat* stabilizzat* puntat*
     estabilizou estabilizo stabilizzo acalmou focou mudou rodou girou uspokoil* ustabilizowal* ustalil* uklidnil*
    focheggiat* focad* apontad* rodad* mudad* movid* estabilizad* udane udany udana
     gedraaid gewisseld verschoven gecentreerd scherpgesteld omgeklapt ustawion* wycentrowan* zmienion* przesuniet*
     odwrocon* vycentrovan* zaostren* otoceno presunut* ok nitid* vuelta_dada sharp_at result*
     tipped made complied obeyed hecho hecha fatto fatta fait faite feito feita gemacht gedaan zrobion* udelan* sharp
     vymenen vymenena vymeneno vymeneny wymienion* steady calm quelled tamed 収まる 収まっ 合った klaar`,
  wait: `harr* harrt lingers patient* warten_auf wartend en_attente in_attesa a_espera wachtend czekaj* cekaj*
     候 等候 待機
     wait waits waiting warte wartet warten espera* esperando attend* attente aspett* attesa attende aguard* wacht
     wachten czeka* oczek* ceka* cekan* 待 等待 await* until till bis_zum jusqu_au jusqu_a_la fino_al fino_alla tot_de
     tot_het 直到
     await* letting let_the on_a_laisse laisse_le laissons deja_que dejamos_que dejo_que lascia_che lasciamo_che
     deixa_que deixamos_que abwarten slumber* patien* 待ち`,
  pause: `stayed held_ on_hold slack wstrzyman* pozdrzen* zadrzen* aangehouden trattenut* retenid* suspendid*
     suspenso ruhig_gestellt 暂歇 歇 中休み
     pause* paused suspend* halt* rest rests resting angehalten unterbroch* pausiert ruht ruhen ruhe_ schlaf* schlaft
     rested descans* pausa repos* en_pause riposo riposa sospes* sospen* descanso gepauzeerd pauze rust_ pauz* wstrzym*
     odpocz* odpoczyw* pozastav* odpociv* 一時停止 暂停 暫停 休止 休息 sleep*
     sleeps idle nap stands_down hold holds(?!_(?:the_)?star) holding(?!_(?:the_)?star) on_hold
     slack idle ausgesetzt aussetz* stille bewust_stil bidden 休み`,
  resume: `taken_up_again tight_again goes_on go_on go_again again_on wieder_an wieder_auf re_prise de_nouveau di_nuovo
     de_novo de_nuevo opnieuw_aan znow znovu_ lifted unpaused un_paused unpause* 续上 续 再开 復帰
     resum* continu* restarts 解除 reanud* retoma* pokracuj* fortgesetzt fortsetz* wieder_auf wiederauf*
     nimmt_die_arbeit weiter wieder_wach repris* reprend* repart* relanc* riprend* ripres* riparte retom* recome*
     prossegu* hervat* verder wznaw* wznow* wraca* pokrac* obnov* opet 再開 恢复 恢復 继续 繼續 wach awake woke wakes wake
     vuelve_al
     back_to_work carries_on goes_on proceed*
     tight carry_on picking_up weer_verder weiter_mit onc_more sigue siguen seguim`,
  lose: `nicht_mehr_zu_finden nicht_zu_finden unauffindbar introuvable* introvabil* onvindbaar niet_te_vinden
     niet_meer_te_vinden fehlt fehlte fehlend* manque manquait falta faltaba manca mancava ontbreekt ontbrak
     brakuje brakowalo chybi chybela nowhere_to_be no_longer_(?:seen|visible|found|there) nie_do_znalezienia k_nenalezeni
     where_did where_has where_is_the nicht_mehr_da slipped slips out_of_sight absent sumiu sumid* escapo
    escapad* sfuggit* echappe* entwischt ontsnapt
     uciekl* umkn* utekl* 丢了 消失 見えず
     lost lose loses losing vanish* disappear* perd* verlor* verliert weg fort gone faded ciegas a_ciegas blind*
     perdu* perso persa smarr* sparit* perdid* kwijt verloren zgub* strac* utrac* zniknel* zniknela ztrac* ztrat*
     zmizel* 失 丢失 丟失 ロスト dropped missing disparu* desapareci*
     loss losses *verlust perte pertes verlies utrata utraty strata straty 喪失
     abscond* can_t_see cannot_see out_of_sight sin_estrella ohne_stern sans_etoile senza_stella sem_estrela
     no_(?:guide_)?star brak_gwiazd* geen_(?:gids|volg)?ster nessuna_stella ninguna_estrella nenhuma_estrela
     pas_d_etoile aucune_etoile kein_(?:leit)?stern bez_gwiazdy bez_hvezdy kwijt 見失`,
  find: `seen_again visible_again in_sight sighted de_volta di_ritorno de_retour zuruckgekehrt weer_terug
     weer_in_beeld znow_widoczn* zase_videt opet_videt 又见 找到 見えた
     found find recover* reacquir* regain* back is_back recuper* encontr* reencontr* wiedergefunden gefunden zuruck
     wieder_da ist_da sind_da
    stern_da vuelve_a_ver aparec* reaparec* retrouv* revenu* ritrov* trovat* ricompar* achad* gevonden
     teruggevonden terug odnalez* znalez* wrocil* nalez* zpet* vratil* 発見 找回 復帰 再捕捉 重新 returned returns again
     con_estrella mit_stern avec_etoile con_stella com_estrela seen again_found once_more_seen 再発見`,
  fail: `mangled botched unsuccessful erfolglos infruct* infrutt* senza_esito sem_exito sans_succes
     zonder_resultaat bez_skutku bezskut* bez_uspech* porazk* 不成 未成 未能
     fail* failed failure error* timeout timed_out gave_up gives_up gescheitert misslung* missgluck* fehler*
     fehlgeschlag* klemmt klemmte jam jams jammed fallo fallad* fallid* fall(?:a|o) no_se echec* echou* ratee fallit*
     errore falh* mislukt* fout* nieuda* blad bledu brak nepodar* selh* chyb* 失敗 失败 超时 超時 x kein keine keinen keiner
     busy zajet* zacie* occupied belegt wieder_versuch* noch_einmal zweiter_versuch otra_vez jeszcze_raz again_later
     retry* retri* nouvel_essai riprova nova_tentativa opnieuw znovu 重试 重試 再試行 stuck noread never
     atasc* coinc* bloqu* bloccat* inceppat* zacial* zasekl* pierde tropieza sin_calma stracona stracon* ztracen*
     not_settled unsettled nie_udal* neustal* niespok*
     came_to_nothing never_really fruitless founder* unquelled in_vain exhausted vain couldn_t could_not no_decent
     misslingt vergeblich sin_exito zonder_succes らず わず かず えず 直し try_again trying_to jammed`,
  abort: `given_up broken_off thrown_back thrown overboard struck_from spoilt weggegooid weggeworfen
     fallengelassen jete* gettat* buttat* tirad*_fora wyrzucon* porzucon* vyhozen* 弃 捨 廃棄 作废
     abort* cancel* interrupt* interrump* interromp* abgebroch* abbruch annul* cut cuts corta cortad* coup* tronc*
     tronq* tagliat* taglia afgebrok* przerwan* przerw* prerus* preruse* 中断 中止 取消
     spoil* spoilt forsak* forsaken anulad* anula abandon* gave_up_on half_way shut_early scrapp* verworfen
     descartad* zahozen* porzuc* 打ち切`,
  ready: `livre_para libre_para libre_pour libero_per libera_per vrij_voor wolny_do volno_pro ready list[oa] bereit
    pret prete pronto pronta gereed gotow* priprav* may may_i can puede podemos darf peut puo pode mag moze muze 準備
    准备 可以 klaar_voor permess* permit* pret_pour pronto_a gotow_do request* ok_to okay_to idle frei_fur asks ask
    asked_for asking_for permission wants_to free_to kann_kommen klar_fur permis* pide
     free_to may_nudge bereit ずらし可 可$`,
  danger: `unsafe not_safe danger* unsicher* nicht_sicher insegur* no_segur* dangereu* pas_sur peligro* pericol*
    non_sicur* perigo* onveilig* niebezp* nebezp* 不安全 危険 危险 manda_parar all_stop cloud* overcast rain* wolk* bewolk*
    nube* nublad* nuag* pluie nuvol* nuvem* nuvens chmur* deszcz* oblac* mrak* mrac* regen lluvia* chuva* pioggia`,
  clear: `safe clear* all_clear sicher frei klar aufgeklart segur* despej* da_paso degage* securis* sereno schiarit*
    sicur* limpo helder* opgeklaard veilig bezpiecz* przejasn* bezpec* vyjasn* jasno 晴 安全 gone blown_over is_over
    are_over vorbei passed unpark* lifted released`,
};

/** The words for each, in the languages of the lexicon, without accents. */
export const MOTIONS = Object.fromEntries(
  (Object.keys(FURTHER) as Motion[]).map((motion) => [
    motion,
    wordList(`${allWords(MOTION_WORDS[motion])} ${FURTHER[motion]} ${furtherWords(motion)}`),
  ]),
) as Readonly<Record<Motion, WordList>>;
