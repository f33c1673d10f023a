const FITS_NAME = /\.(?:fits?|fts)(?:\.(?:gz|fz))?$|\.fz$/i;
/** Companion files that some file systems write beside each file; they hold no image. */
const COMPANION = /(?:^|[\\/])\._[^\\/]*$/;

/** Whether a path names a FITS file: .fits, .fit or .fts, plain or with .gz or .fz after it, in any case. */
export function isFitsName(path: string): boolean {
  return FITS_NAME.test(path) && !COMPANION.test(path);
}
