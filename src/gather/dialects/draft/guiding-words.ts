/** Column names of guiding tables, and their units, in the languages of the lexicon. */
import { wordList } from './lexicon/word-list.js';

export const RA = wordList(
  'ra dra ra* ar alpha rekt* east* ost* est* west ovest oeste oost wschod* vychod* x dx h hour 赤经 赤経 东西 東西 e',
);
export const DEC = wordList(
  'dec ddec de* dekl* delta north* nord* norte noord* sud* south polnoc* sever* y dy 赤纬 赤緯 南北 n',
);
export const ERROR = wordList(
  'err* error* raw dev* abw* fehler* erreur* desv* ecart* scart* afwijk* odchyl* distance 误差 誤差 ずれ 偏差 残差',
);
export const PULSE = wordList(
  'pulse* ms push schub* dur* duration corr* korr* impuls* impulz* puls* guide_ms empuje* motor',
);
export const PIXEL = wordList('px pix pixel* bp bildpunkt* piksel* punkt* 像素 ピクセル');
export const ARCSEC = wordList('as arcsec* arc bogensek* segundo* seconde* 角秒 秒角 sec secs');
export const SNR = wordList('snr sn s_n signal* ratio stn');
/** A line that states the unit of the columns, not the size of a pixel. */
export const IN_ARCSEC =
  /(?:^|[\s([])(?:in|en|em|w|v|units?|einheit|unit[àée]s?|:)\s*:?\s*(?:arc-?sec\w*|bogensek\w*|segundos? de arco|secondes? d['’]arc|secondi d['’]arco|boogsec\w*|sekund\w* [łl]uk\w*|[″]|角秒|秒角)(?!\s?(?:\/|per|pro|por|par))/iu;
