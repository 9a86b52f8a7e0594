import { deflateSync } from 'node:zlib';
import {
  decodePDFRawStream,
  PDFArray,
  PDFContext,
  PDFDict,
  PDFDocument,
  PDFName,
  PDFNumber,
  type PDFObject,
  PDFRawStream,
  PDFRef,
  PDFStream,
} from '@cantoo/pdf-lib';
import { bareJpeg, bareJpeg2000, UnreadablePicture } from './embedded-pictures.ts';

/** Why a PDF is not kept. */
export type PdfFault =
  | 'locked'
  | 'unreadable'
  | 'picture'
  | 'scripts'
  | 'unpacks'
  | { readonly pages: number; readonly most: number };

/** What came of an upload: the PDF without what its makers wrote into it, or why it can't be had. */
export type BarePdf = { readonly content: Uint8Array } | { readonly fault: PdfFault };

class Refused extends Error {
  readonly fault: PdfFault;
  constructor(fault: PdfFault) {
    super('this PDF is not kept');
    this.fault = fault;
  }
}

const MOST_PAGES = 300;
/** What a single packed stream of a PDF may unpack to while it is read. */
const MOST_UNPACKED = 64 * 1_048_576;

const name = (word: string) => PDFName.of(word);
const TYPE = name('Type');
const FILTER = name('Filter');
const PARAMETERS = name('DecodeParms');
const kinds = [TYPE, name('S'), name('Subtype')];
const dangerousKinds: ReadonlySet<unknown> = new Set(['JavaScript', 'Launch', 'EmbeddedFile', 'RichMedia'].map(name));
/** Notes of a maker's own, and places on the earth: of a page, a part of it, a drawing (ISO 32000-1, 14.5; -2, 12.10). */
const notes = ['PieceInfo', 'VP', 'LGIDict', 'Measure', 'PtData'].map(name);

/**
 * A PDF without document information, XMP of any of its parts, notes of makers, places on the earth and what pictures in
 * it carry besides their pixels; without its own older states too. The same upload always makes the same bytes.
 */
export async function barePdf(upload: Uint8Array): Promise<BarePdf> {
  try {
    const pdf = await read(upload);
    keepOnly(pdf.context, cleaned(pdf.context));
    const plain = { useObjectStreams: false, addDefaultPage: false, updateFieldAppearances: false };
    return { content: await pdf.save({ ...plain, objectsPerTick: Number.POSITIVE_INFINITY }) };
  } catch (error) {
    if (error instanceof Refused) return { fault: error.fault };
    if (error instanceof UnreadablePicture) return { fault: 'picture' };
    throw error;
  }
}

async function read(upload: Uint8Array): Promise<PDFDocument> {
  unpacked.tooMuch = false;
  const whole = { throwOnInvalidObject: true, ignoreEncryption: true, updateMetadata: false };
  const pdf = await PDFDocument.load(upload, { ...whole, parseSpeed: Number.POSITIVE_INFINITY }).catch(() => {
    throw new Refused(unpacked.tooMuch ? 'unpacks' : 'unreadable');
  });
  const { trailerInfo } = pdf.context;
  if (trailerInfo.Encrypt !== undefined) throw new Refused('locked');
  if (!(pdf.context.lookup(trailerInfo.Root) instanceof PDFDict)) throw new Refused('unreadable');
  delete trailerInfo.Info;
  return pdf;
}

const unpacked = { tooMuch: false };
/** The reader unpacks streams of objects by itself and to any length; it is held to what a document may need. */
function boundUnpacking(): void {
  const sample = PDFRawStream.of(PDFDict.withContext(PDFContext.create()), deflateSync(''));
  sample.dict.set(FILTER, name('FlateDecode'));
  const decoder: { ensureBuffer: (this: unknown, size: number) => Uint8Array } = Object.getPrototypeOf(
    Object.getPrototypeOf(decodePDFRawStream(sample)),
  );
  const grow = decoder.ensureBuffer;
  decoder.ensureBuffer = function (size) {
    unpacked.tooMuch ||= size > MOST_UNPACKED;
    if (unpacked.tooMuch) throw new Refused('unpacks');
    return grow.call(this, size);
  };
}
boundUnpacking();

/** Cleans whatever hangs at the document's root and answers the references that lead to it. */
function cleaned(context: PDFContext): ReadonlySet<PDFRef> {
  const reached = new Set<PDFRef>();
  const seen = new Set<PDFObject>();
  const ahead: PDFObject[] = Object.values(context.trailerInfo).filter((each) => each !== undefined);
  let pages = 0;
  for (let next = ahead.pop(); next !== undefined; next = ahead.pop()) {
    if (next instanceof PDFRef) reached.add(next);
    const object = context.lookup(next);
    if (object === undefined || seen.has(object)) continue;
    seen.add(object);
    if (object instanceof PDFArray) for (const each of object.asArray()) ahead.push(each);
    const dict = object instanceof PDFStream ? object.dict : object;
    if (!(dict instanceof PDFDict)) continue;
    if (isDangerous(dict)) throw new Refused('scripts');
    if (dict.lookup(TYPE) === name('Page')) pages += 1;
    cleanDict(dict);
    if (object instanceof PDFRawStream) cleanPicture(object);
    for (const each of dict.values()) ahead.push(each);
  }
  refuseBook(context, pages);
  return reached;
}

function refuseBook(context: PDFContext, found: number): void {
  const root = context.lookup(context.trailerInfo.Root, PDFDict).lookup(name('Pages'));
  const told = root instanceof PDFDict ? root.lookup(name('Count')) : undefined;
  const pages = Math.max(found, told instanceof PDFNumber ? told.asNumber() : 0);
  if (pages > MOST_PAGES) throw new Refused({ pages, most: MOST_PAGES });
}

/** Scripts, programs to start and files inside. */
function isDangerous(dict: PDFDict): boolean {
  if (kinds.some((key) => dangerousKinds.has(dict.lookup(key)))) return true;
  if (dict.has(name('JavaScript')) || (dict.has(name('JS')) && dict.has(name('S')))) return true;
  const files = dict.lookup(name('EF'));
  return files instanceof PDFDict && files.lookup(TYPE) !== name('Font');
}

function cleanDict(dict: PDFDict): void {
  for (const key of notes) {
    const value = dict.lookup(key);
    // A font or picture of a page may bear such a name.
    if (value instanceof PDFArray || (value instanceof PDFDict && value.lookup(TYPE) !== name('Font')))
      dict.delete(key);
  }
  const described = dict.lookup(name('Metadata'));
  if (described instanceof PDFStream && described.dict.lookup(TYPE) !== name('XObject')) dict.delete(name('Metadata'));
}

/** Pictures keep their pixels as they are coded; only what stands beside these goes. */
function cleanPicture(stream: PDFRawStream): void {
  const filter = stream.dict.lookup(FILTER);
  const filters =
    filter instanceof PDFArray ? filter.asArray().map((each) => stream.dict.context.lookup(each)) : [filter];
  const last = filters.at(-1);
  const bare = last === name('DCTDecode') ? bareJpeg : last === name('JPXDecode') ? bareJpeg2000 : undefined;
  if (bare === undefined) return;
  const content = filters.length > 1 ? unwrapped(stream, filters) : stream.contents;
  stream.updateContents(bare(Buffer.from(content.buffer, content.byteOffset, content.byteLength)));
}

/** Takes off what a picture is packed into besides its own coding. */
function unwrapped(stream: PDFRawStream, filters: readonly (PDFObject | undefined)[]): Uint8Array {
  const { dict } = stream;
  const parameters = dict.lookup(PARAMETERS);
  const outer = PDFRawStream.of(dict.clone(), stream.contents);
  const around = PDFArray.withContext(dict.context);
  for (const each of filters.slice(0, -1)) if (each !== undefined) around.push(each);
  outer.dict.set(FILTER, around);
  try {
    const content = decodePDFRawStream(outer).decode();
    dict.set(FILTER, filters.at(-1) ?? around);
    const own = parameters instanceof PDFArray ? dict.context.lookup(parameters.asArray().at(-1)) : undefined;
    if (own instanceof PDFDict) dict.set(PARAMETERS, own);
    else dict.delete(PARAMETERS);
    return content;
  } catch (error) {
    if (error instanceof Refused) throw error;
    throw new UnreadablePicture();
  }
}

/** Older states of the document and what belonged to its information only. */
function keepOnly(context: PDFContext, reached: ReadonlySet<PDFRef>): void {
  context.largestObjectNumber = 0;
  for (const [ref] of context.enumerateIndirectObjects()) {
    if (reached.has(ref)) context.largestObjectNumber = Math.max(context.largestObjectNumber, ref.objectNumber);
    else context.delete(ref);
  }
}
