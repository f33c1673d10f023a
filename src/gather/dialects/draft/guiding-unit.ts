const MILLI =
  /(?<![\p{L}])(?:mas|milli-?\s?arc-?\s?sec\w*|milliarcs\w*|thousandths of an? arc-?\s?sec\w*|millibogens\w*|mbogens\w*|tausendstel\s(?:bogen)?sek\w*|milisegundos?\sde\sarco|milésimas?\sde\s(?:arco)?segundo\w*|millisecondes?\sd['’]arc|milli[èe]mes?\sde\sseconde\w*|millesimi\sdi\s(?:arco)?second\w*|milliboogsec\w*|毫角秒|ミリ秒角)(?![\p{L}])/iu;

/** Whether a text says that errors are in thousandths of an arcsecond. */
export function milliIn(texts: readonly string[]): boolean {
  return texts.some((text) => MILLI.test(text.replace(/_/g, ' ')));
}
