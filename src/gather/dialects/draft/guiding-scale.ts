/** Words for a pixel of the guide camera, and for the arcsecond, in the likely languages of logs. */
const PIXEL =
  'px|pix(?:els?|eln?)?|p[ií]xe(?:l|les|is)|bildpunkte?s?|bp|beeldpunte?n?|beeldpunt|pikseli?|piksel[ae]?|bod[uůy]?|pixelů|punkt|像素|画素|ピクセル';
const ARCSEC = String.raw`["″”]|''|as|arc-?\s?sec(?:ond)?s?|bogensek(?:unden?)?\.?|bogens(?:ekunden?)?|segundos?\s(?:de\s)?arco|arcoseg\w*|seg\.?\s?arco|secondes?\sd['’]arc|arcsec(?:onde)?s?|secondi\sd['’]arco|boogsec(?:onden?)?|sekund\w*\s[łl]uku|obl\.?\s?(?:vte[rř]in\w*|sek\w*)|úhlov\w*\s(?:vte[rř]in\w*|sekund\w*)|角秒|秒角`;
const PER = String.raw`\s?(?:/|per|pro|je|par|por|al|ogni|na|op|a|za|毎)\s?`;
/** Words that name the scale itself. */
const SCALE =
  'scale|ma(?:ß|ss)stab|abbildungsma(?:ß|ss)stab|escala|[ée]chelle|[ée]chantillonnage|scala|campionamento|schaal|beeldschaal|skala|skali|m[ěe]ř[íi]tko|meritko|像素比例|比例尺|スケール|縮尺|amostragem|muestreo|próbkowanie';
const KEY = 'arcsec_?per_?p(?:x|ixel)|arcsec_?px|as_?per_?px|as_?px|px_?scale';

/** A number that is not part of a date, a time or a version. */
const NUMBER = String.raw`(?<![\d.,/-]|\d:)(?<value>\d{1,2}[.,]\d{1,6}|\d{1,2})(?![\d:]|[.,/-]\d)(?!\s?(?:°|deg|grad|[CKsm]\b|km|min\b|%))`;

const FORMS: readonly RegExp[] = [
  // `1.31 arcsec/px`, `1,42 Bogensekunden je Bildpunkt`
  new RegExp(String.raw`${NUMBER}\s?(?:${ARCSEC})(?:${PER})(?:${PIXEL})(?!\p{L})`, 'iu'),
  // `scale_arcsec_px=1.31`, `px scale: 1.31`
  new RegExp(String.raw`(?:${SCALE}|${KEY})[\p{L}\s"'_./=:(){}…-]{0,40}?${NUMBER}`, 'iu'),
  // `one px is 1.31 arcsec`, `1 px = 1.31"`
  new RegExp(String.raw`(?:${PIXEL})\s?(?:=|:|is|are|ist|vale|vaut|equals|≙|[àa])\s?${NUMBER}\s?(?:${ARCSEC})`, 'iu'),
];

/** Plausible range of a guide camera's pixel scale, arcseconds. */
const PLAUSIBLE = { from: 0.05, to: 25 } as const;
const BEFORE = 30;

/**
 * The line that states the pixel scale in arcseconds, as a pattern that captures it in the group `value`; `null` if
 * there is none.
 */
export function scaleLine(lines: Iterable<string>): string | null {
  for (const line of lines) {
    for (const form of FORMS) {
      const match = form.exec(line);
      const value = match?.groups?.value;
      if (match === null || value === undefined) continue;
      const scale = Number(value.replace(',', '.'));
      if (scale < PLAUSIBLE.from || scale > PLAUSIBLE.to) continue;
      return patternAround(line, match, value);
    }
  }
  return null;
}

/** The number with a few characters of context on both sides. */
function patternAround(line: string, match: RegExpExecArray, value: string): string {
  const at = match.index + match[0].indexOf(value, match[0].search(new RegExp(NUMBER, 'u')));
  const start = wordStart(line, Math.max(0, Math.min(match.index, at - 8), at - BEFORE));
  const before = escaped(line.slice(start, at));
  const after = escaped(line.slice(at + value.length, match.index + match[0].length).slice(0, BEFORE));
  return `${before}(?<value>[\\d.,]*\\d)${after}`;
}

function wordStart(line: string, from: number): number {
  let i = from;
  while (i > 0 && /[\p{L}\d_]/u.test(line[i - 1] ?? '') && /[\p{L}\d_]/u.test(line[i] ?? '')) i--;
  return i;
}

function escaped(text: string): string {
  return text
    .replace(/[\\^$.*+?()[\]{}|]/g, '\\$&')
    .replace(/\d+/g, '\\d+')
    .replace(/\s+/g, '\\s+');
}
