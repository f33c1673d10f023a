/**
 * A PDF larger than this is packed again before it is written, bytes: it is meant to be sent by mail, and of a normal
 * night shall stay below two megabytes. Packing takes nearly as long as printing: what is small enough is left
 * alone.
 */
const LARGE_BYTES = 1_950_000;

/**
 * Packs a large PDF's objects into compressed object streams (PDF 1.5, ISO 32000-1, 7.5.7), which about halves one with
 * many tagged table cells. Pages, tags and outline stay as they are; small files are returned untouched, and so is a
 * file that the packer cannot read.
 */
export async function compactPdf(bytes: Uint8Array): Promise<Uint8Array> {
  if (bytes.length <= LARGE_BYTES) return bytes;
  const { ParseSpeeds, PDFDocument } = await import('@cantoo/pdf-lib');
  try {
    // At once: nobody draws a progress bar meanwhile, and the pauses for one take longer than the work.
    const document = await PDFDocument.load(bytes, { updateMetadata: false, parseSpeed: ParseSpeeds.Fastest });
    const packed = await document.save({ useObjectStreams: true, objectsPerTick: Infinity });
    return packed.length < bytes.length ? packed : bytes;
  } catch {
    return bytes;
  }
}
