// The words of a PDF document, and the sizes of its pages in points.

import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

export async function wordsOfPdf(bytes) {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const pages = [];
  const words = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const { width, height } = page.getViewport({ scale: 1 });
    pages.push([Math.round(width), Math.round(height)]);
    const { items } = await page.getTextContent();
    words.push(...items.map((item) => item.str).join(" ").split(/\s+/).filter(Boolean));
  }
  await document.destroy();
  return { pages, words };
}
