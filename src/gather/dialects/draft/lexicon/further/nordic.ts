import type { FurtherWords } from './concepts.js';

export const SWEDISH: FurtherWords = {
  exposure: 'exponer* slutare slutaren bildtagning* fotografer* tar_bild',
  frame: 'sparad* sparas sparar sparat lagrad* lagras lagrar lagrat skriven_till skrivs_till pa_disk till_disk',
  dither: 'forskjut* slumpflytt* smaflytt* smahopp* knuff*',
  settling: 'stabil* lugn* lugnar insvang* stillnat stillnar',
  focus: 'fokus* skarpeinstall* skarpa skarp skarpt',
  filter: 'filter* filterhjul* filterbyt*',
  slew: 'svangning* svanger_mot svanger_till kor_till kor_mot pa_vag_till pa_vag_mot riktar_mot riktas_mot sval*',
  centre: 'inpass* passas_in centrer* i_mitten bildmitten',
  flip: 'meridian* vandning* vander_om meridianvand* sidbyte* byter_sida',
  guiding: 'guidning* guidar guidas autoguid* foljning* stjarnfoljning* styrning',
  star: 'stjarna stjarnan ledstjarn* guidestjarn* foljestjarn*',
  hold: 'moln* molnigt taket kupol* regn* oskydd* osakert vaderpaus* ovader* dimma',
  session: 'korning* korningen passet',
  cooler: 'kylning* kyler kyls kylare* sensortemperatur*',
  noise: 'fuktighet* luftfukt* vader vaderlek vind blast diskutrymme daggpunkt* natverk*',
  open: 'oppnad* oppnar oppnas oppen oppet',
  close: 'stangd* stanger stangs stangt',
  start: 'borjar borjade borjat startar startad* startat startas paborj* inleds inledd* slas_pa satts_igang',
  stop:
    'slut slutar slutad* slutat klar klart fardig* avslutas avslutad* avslutat stoppad* stoppas stoppat ' +
    'slas_av avstangd*',
  grab: 'last_pa laser_pa fangad* infangad*',
  release: 'slappt slapper slapps',
  arrive: 'framme pa_plats anlant har_natt i_lage ar_inne bast_skarpa basta_fokus',
  doing: 'pagar ror_sig vrids vrider byter byts roterar flyttar flyttas vaxlar vaxlas',
  did: 'bytt vriden flyttad flyttat lyckad* lyckades lyckats utford* utfort ok$',
  wait: 'vantar vanta vantan invant* avvaktar',
  pause: 'paus pausad* pausar pausas uppehall vilar',
  resume: 'fortsatter fortsatt ateruppta* aterupptog* pa_igen igang_igen',
  lose: 'forlorad* forlorat tappad* tappat forsvann forsvunn* borta',
  find: 'hittad* hittat hittas aterfunn* synlig funnen tillbaka',
  fail: 'misslyck* gick_inte gav_upp ger_upp utan_resultat tidsgrans*',
  abort: 'avbruten avbrutet avbrots avbryts avbryter avbrutits kasserad* kasserat',
  ready: 'redo beredd',
  danger: 'fara farlig* osaker osakert',
  clear: 'sakert klarnat klarnar uppklarnande molnfritt',
  parked: 'parkeras parkerad* viloposition* hemlage*',
  chatter: 'ansluten anslutet anslutning* frankoppl* kalibrer* inte_an aterstar planerad* nasta_[a-z]+_om i_kon',
  negation: 'inte ingen inget utan aldrig',
};

/** Danish and Norwegian. */
export const DANISH: FurtherWords = {
  exposure:
    'eksponer* eksponering* lukkeren lukker_(?:aben|abner|abnet|lukket|lukker) optagelse* lyseksponer* opptak ' +
    'billedtag*',
  frame: 'gemt gemmes gemmer lagret lagres lagrer skrevet_til pa_disk til_disk lagt_pa_disk',
  dither: 'forskyd* forskyv* forskudt tilfaeldigt_hop tilfeldig_hopp smahop* skub skubber skubbet dytt*',
  settling:
    'stabil* falder_til_ro faldet_til_ro rolig* roer_seg roet_seg svinger_ind svunget_ind til_ro i_ro beroliget ' +
    'ro_(?:igjen|igen|oppnadd|opnaet|nadd|naet|etter|efter) (?:fant|fandt|fatt|faet|far|montering(?:en)?|montasje[nt]?|guider|folging(?:en)?)_ro',
  focus: 'fokus* skarphed* skarphet* skarpstil* fokuser*',
  filter: 'filter* filterhjul* filterskift* filterbytt*',
  slew:
    'korer_til kjorer_til korer_mod kjorer_mot drejer_mod dreier_mot svinger_mod svinger_mot svinger_til ' +
    'pa_vej_til pa_vei_til retter_mod retter_mot koring_til kjoring_til sigter_mod',
  centre: 'centrer* sentrer* i_midten billedmidte*',
  flip:
    'meridian* vender_om vendt_om vending vendes sideskift* skifter_side snur_over snudd_over ferdig_snudd ' +
    'montering_vend*',
  guiding:
    'guidning* guides_ autoguid* folgning* styringen stjernefolgning* stjernefolging* folging* ' +
    'folger?_(?:lede|guide|folge)?stjerne*',
  star: 'stjerne stjernen ledestjerne* guidestjerne* ledestjernen folgestjerne*',
  hold: 'skyer skyet overskyet skydaekke* skydekke* taget takets kuppel* regn* usikkert vejrpause* uvejr* uvaer* taage',
  session: 'koringen kjoringen programmet',
  cooler: 'koling koler kolet kolingen nedkol* kjoling* kjoler kjolt nedkjol* sensortemperatur*',
  noise:
    'fugt fugtighed* luftfugt* luftfukt* vejr vejret vaeret vind blaest diskplads dugpunkt* duggpunkt* ' +
    'netvaerk* nettverk*',
  open: 'abner abnet abnes aben abent apner apnet apen apent apnes',
  close: 'lukket lukkes lukker lukkede stengt stenger stenges',
  start:
    'begynder begyndt begyndte begynner begynt starter startet startes pabegynd* pabegynt i_gang ' +
    'saettes_i_gang taendt slas_pa slaet_til',
  stop:
    'slut slutter sluttet faerdig* ferdig* afslut* avslutt* stoppet stopper stoppes ophort slukket slas_fra ' +
    'slaet_fra slutt',
  grab: 'last_pa laser_pa fanget indfanget',
  release: 'sluppet slipper slippes',
  arrive: 'fremme pa_plads pa_plass ankommet i_position naet_frem er_naet bedste_fokus beste_fokus pa_malet',
  doing: 'korer drejer drejes dreier skifter skiftes bytter flytter flyttes roterer bevaeger',
  did: 'drejet skiftet flyttet dreid byttet lykkedes lyktes udfort utfort gennemfort ok$',
  wait: 'venter vente venting ventingen ventetid ventetiden afventer avventer',
  pause: 'pause(?:t|s|r|n)? pa_pause holder_pause hviler satt_pa_pause sat_pa_pause',
  resume: 'fortsaetter fortsat fortsetter fortsatt genopta* gjenoppta* gjenopptok genstart* i_gang_igen til_igen',
  lose: 'tabt tabte mistet mister vaek forsvundet forsvandt tapt borte forsvant',
  find: 'fundet genfundet funnet gjenfunnet synlig tilbage tilbake set_igen i_sikte i_syne_igen',
  fail: 'mislyk* mislykket fejlede fejlet feilet opgiv* opgivet oppgitt gav_op uden_resultat uten_resultat',
  abort: 'afbrudt afbryd* afbrydes avbrutt avbryt* kasser* kasseret for_tiden fortidig*',
  ready: 'parat klar_til klar_for',
  danger: 'fare farlig* usikker usikkert',
  clear: 'sikkert opklaring* klarer_op klaret_op skyfrit skyfritt',
  parked: 'parkeres parkeret parkert hvilestilling* hjemstilling*',
  chatter:
    'tilsluttet tilkoblet frakobl* forbindelse* kalibrer* endnu_ikke enna_ikke tilbage_at planlagt ' +
    'naeste_[a-z]+_om neste_[a-z]+_om i_ko',
  negation: 'ikke ingen intet uden uten aldrig aldri',
};
