/**
 * A PDF larger than this is compressed again before it is written, bytes: it is meant for e-mail, and for a normal
 * night shall stay below two megabytes. Compression takes nearly as long as printing: small files are left alone.
 */
const LARGE_BYTES = 1_950_000;

/**
 * Packs a large PDF's objects into compressed object streams (PDF 1.5, ISO 32000-1, 7.5.7), which about halves one with
 * many tagged table cells. Pages, tags and outline are unchanged; small files are returned as they are, and so is a
 * file that the packer cannot read.
 */
export async function compactPdf(bytes: Uint8Array): Promise<Uint8Array> {
  if (bytes.length <= LARGE_BYTES) return bytes;
  const { ParseSpeeds, PDFDocument } = await import('@cantoo/pdf-lib');
  try {
    // Without pauses: nobody draws a progress bar meanwhile, and the pauses for one take longer than the work.
    const document = await PDFDocument.load(bytes, { updateMetadata: false, parseSpeed: ParseSpeeds.Fastest });
    const packed = await document.save({ useObjectStreams: true, objectsPerTick: Infinity });
    return packed.length < bytes.length ? packed : bytes;
  } catch {
    return bytes;
  }
}
