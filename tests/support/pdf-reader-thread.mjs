// The reader of PDFs in a thread of its own. It replaces functions of the language for all who run beside it (JSON and
// Base64 by slow ones of its own), and leaves drawing classes behind that charts must not find.
import { parentPort } from 'node:worker_threads';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

const OPTIONS = { useSystemFonts: false, disableFontFace: true, verbosity: 0 };

/** A run of text in its box, points from the page's lower left: one that is turned stands upright. */
function placed({ str: text, transform, width, height }) {
  const [, turn, , , x, y] = transform;
  if (Math.abs(turn) < 0.01) return { text, x, y, width, height };
  return turn > 0
    ? { text, x: x - height, y, width: height, height: width }
    : { text, x, y: y - width, width: height, height: width };
}

async function pageOf(page) {
  const { items } = await page.getTextContent({ disableNormalization: true });
  const [, , width, height] = page.view;
  return { size: [width, height], lines: items.filter((item) => item.str?.trim()).map(placed) };
}

const titled = (entries) => entries.map(({ title, items }) => ({ title, items: titled(items) }));

/** Asked for by itself: it takes half as long as all the text. */
async function linksOf(document) {
  const pages = Array.from({ length: document.numPages }, (_, i) => document.getPage(i + 1));
  const annotations = await Promise.all(pages.map(async (page) => (await page).getAnnotations()));
  return annotations.flat().filter(({ subtype }) => subtype === 'Link').length;
}

async function read(data, withLinks) {
  const task = getDocument({ data, ...OPTIONS });
  try {
    const document = await task.promise;
    const pages = [];
    for (let number = 1; number <= document.numPages; number++)
      pages.push(await pageOf(await document.getPage(number)));
    return {
      isTagged: (await document.getMarkInfo())?.Marked === true,
      outline: titled((await document.getOutline()) ?? []),
      links: withLinks ? await linksOf(document) : null,
      about: JSON.stringify(await document.getMetadata()),
      pages,
    };
  } finally {
    await task.destroy();
  }
}

parentPort.on('message', async ({ id, data, withLinks }) => {
  try {
    parentPort.postMessage({ id, read: await read(data, withLinks) });
  } catch (error) {
    parentPort.postMessage({ id, failure: String(error) });
  }
});
