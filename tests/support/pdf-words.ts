import { createRequire } from 'node:module';

const { resolve } = createRequire(import.meta.url);

/** What a PDF says, page by page, as PDF.js reads it: a reader that has nothing in common with what wrote it. */
export async function wordsOfPdf(pdf: Uint8Array): Promise<readonly (readonly string[])[]> {
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const document = await getDocument({
    data: new Uint8Array(pdf),
    standardFontDataUrl: resolve('pdfjs-dist/package.json').replace('package.json', 'standard_fonts/'),
  }).promise;
  const pages: string[][] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const { items } = await (await document.getPage(number)).getTextContent();
    pages.push(items.map((item) => ('str' in item ? item.str : '')).filter((words) => words.trim() !== ''));
  }
  await document.destroy();
  return pages;
}

/** What a PDF tells of its making, as PDF.js reads it. */
export async function factsOfPdf(pdf: Uint8Array) {
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const document = await getDocument({ data: new Uint8Array(pdf) }).promise;
  const { info, metadata } = await document.getMetadata();
  await document.destroy();
  const told = info as { readonly Title?: string; readonly Author?: string };
  return { title: told.Title, author: told.Author, described: metadata !== null };
}
