import { readdirSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import { PDFDocument } from '@cantoo/pdf-lib';
import exifr from 'exifr';
import PDFKit from 'pdfkit';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { insideOf, jpegsIn, paper, stream, telltalePaper } from '../support/papers.ts';
import { factsOfPdf, wordsOfPdf } from '../support/pdf-words.ts';
import { pdf, phonePicture } from '../support/pictures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { filesOf } from '../support/test-config.ts';

const PLACE = 'Sandvika by the fjord';
let shop: Shop;
let jobId: string;
let cookies: Record<string, string>;
beforeAll(async () => {
  shop = await openShop();
  ({ jobId } = await takeIn(shop, { serial: 'H355-901' }));
  const { token } = await startSession(shop.sql, { personId: shop.people.technician, terminalId: undefined });
  cookies = { [SESSION_COOKIE]: token };
});
afterAll(() => shop.close());

async function send(file: Buffer) {
  const reply = await shop.app.inject({
    method: 'POST',
    url: `/api/jobs/${jobId}/photos?name=note.pdf`,
    payload: file,
    headers: { 'content-type': 'application/pdf', 'idempotency-key': crypto.randomUUID() },
    cookies,
  });
  return { status: reply.statusCode, body: reply.json() };
}

async function kept(file: Buffer): Promise<Buffer> {
  const { status, body } = await send(file);
  expect(status, JSON.stringify(body)).toBe(201);
  const { rawPayload } = await shop.app.inject({ method: 'GET', url: `/api/photos/${body.id}/content`, cookies });
  expect(body.bytes).toBe(rawPayload.length);
  return rawPayload;
}

const stored = () => {
  try {
    return readdirSync(filesOf(shop.url), { recursive: true }).length;
  } catch {
    return 0;
  }
};

async function refused(file: Buffer, status: number, words: RegExp): Promise<void> {
  const countOf = async () => [
    stored(),
    (await shop.sql`select (select count(*)::int from photo) photos, (select count(*)::int from event) events`)[0],
  ];
  const before = await countOf();
  const answer = await send(file);
  expect(answer.body.detail).toMatch(words);
  expect(answer.status).toBe(status);
  expect(await countOf()).toEqual(before);
}

/** Every object that may be packed is packed into streams of objects. */
const packed = async (file: Buffer) =>
  Buffer.from(await (await PDFDocument.load(file, { updateMetadata: false })).save({ useObjectStreams: true }));

describe('a PDF that is kept', () => {
  test.each([
    ['as it was written', async (file: Buffer) => file],
    ['with its objects packed', packed],
  ])('tells nowhere where it was made, %s; what it says and shows is as it was', async (_, made) => {
    const photo = await phonePicture();
    const upload = await made(telltalePaper(photo, PLACE));
    expect(insideOf(upload)).toContain(PLACE);
    expect(await exifr.gps(jpegsIn(upload)[0] ?? '')).toMatchObject({ latitude: expect.closeTo(59.908, 2) });

    const content = await kept(upload);
    const inside = insideOf(content);
    for (const word of [PLACE, 'Phone of a test', 'Exif', 'GPTS', 'xmpmeta']) expect(inside).not.toContain(word);
    expect(await factsOfPdf(content)).toEqual({ title: undefined, author: undefined, described: false });
    expect(await wordsOfPdf(content)).toEqual([['Barrel replated, 88.02 mm']]);
    const pictures = jpegsIn(content);
    expect(pictures).toHaveLength(1);
    const pixels = (jpeg: Buffer | undefined) => sharp(jpeg).raw().toBuffer();
    expect((await pixels(pictures[0])).equals(await pixels(photo))).toBe(true);
  });

  test('loses what stood in an older state of it, and a picture packed once more is unpacked for it', async () => {
    const photo = await phonePicture();
    const whole = paper([
      '<</Type /Catalog /Pages 2 0 R>>',
      '<</Type /Pages /Kids [3 0 R] /Count 1>>',
      '<</Type /Page /Parent 2 0 R /MediaBox [0 0 200 200] /Resources <</XObject <</Im0 4 0 R>>>>>>',
      stream(
        '/Type /XObject /Subtype /Image /Width 400 /Height 300 /ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter [/FlateDecode /DCTDecode]',
        deflateSync(photo),
      ),
      `<</Was (${PLACE})>>`,
    ]);
    const later = Buffer.from(
      `5 0 obj\n<</Is (nothing)>>\nendobj\nxref\n0 1\n0000000000 65535 f \ntrailer\n<</Size 6 /Root 1 0 R>>\nstartxref\n${whole.length}\n%%EOF\n`,
    );
    const content = await kept(Buffer.concat([whole, later]));
    expect(insideOf(content)).not.toContain(PLACE);
    expect(insideOf(content)).not.toContain('Exif');
    expect(jpegsIn(content)).toHaveLength(1);
  });

  test('is one file however often it is sent, and stays as it is when what was kept is sent again', async () => {
    const upload = telltalePaper(await phonePicture(), 'Lysaker');
    const first = await kept(upload);
    const files = stored();
    expect((await kept(upload)).equals(first)).toBe(true);
    expect((await kept(first)).equals(first)).toBe(true);
    expect(stored()).toBe(files);
  });

  test('may hold pixels that look like the name of a script', async () => {
    const pixels = stream(
      '/Type /XObject /Subtype /Image /Width 2 /Height 2',
      Buffer.from('x/JS /Launch /EmbeddedFile x'),
    );
    const page = '<</Type /Page /Parent 2 0 R /MediaBox [0 0 9 9] /Resources <</XObject <</Im0 4 0 R>>>>>>';
    const whole = ['<</Type /Catalog /Pages 2 0 R>>', '<</Type /Pages /Kids [3 0 R] /Count 1>>', page, pixels];
    expect((await kept(paper(whole))).includes('/Launch')).toBe(true);
  });
});

describe('a PDF that is not kept', () => {
  const catalog = '<</Type /Catalog /Pages 2 0 R /More 3 0 R>>';
  const pages = '<</Type /Pages /Kids [] /Count 0>>';

  test('is locked', async () => {
    const locked = new PDFKit({ ownerPassword: 'of the maker', permissions: {} });
    const pieces: Buffer[] = [];
    locked.on('data', (piece: Buffer) => pieces.push(piece));
    const ended = new Promise((resolve) => locked.on('end', resolve));
    locked.text('Barrel replated').end();
    await ended;
    await refused(Buffer.concat(pieces), 422, /locked.*Print it to a plain PDF and send that/);
  });

  test('holds scripts or files, in a packed object too', async () => {
    const acting = paper([catalog, pages, '<</S /JavaScript /JS (app.alert\\(1\\))>>']);
    await refused(acting, 422, /scripts or files/);
    const hidden = await packed(acting);
    expect(hidden.includes('JavaScript')).toBe(false);
    await refused(hidden, 422, /scripts or files/);
    const carrying = paper([
      catalog,
      pages,
      '<</Type /Filespec /F (a.exe) /EF <</F 4 0 R>>>>',
      stream('', Buffer.from('MZ')),
    ]);
    await refused(carrying, 422, /scripts or files/);
  });

  test('is damaged inside, or holds a picture that can’t be looked through', async () => {
    const torn = pdf().toString('latin1').replace('/Kids [3 0 R]', '/Kids [3 0 R');
    await refused(Buffer.from(torn, 'latin1'), 422, /can’t be read to its end/);
    const picture = stream('/Type /XObject /Subtype /Image /Filter /DCTDecode', Buffer.from('no JPEG at all'));
    const page = '<</Type /Catalog /Pages 2 0 R /Picture 3 0 R>>';
    await refused(
      paper([page, '<</Type /Pages /Kids [] /Count 0>>', picture]),
      422,
      /picture in the PDF can’t be read/,
    );
  });

  test('is small and unpacks to no end: refused before it takes the memory of the service', async () => {
    const wall = deflateSync(Buffer.alloc(200 * 1_048_576, ' '));
    const bomb = paper([catalog, pages, stream('/Type /ObjStm /N 1 /First 4 /Filter /FlateDecode', wall)]);
    expect(bomb.length).toBeLessThan(400_000);
    const before = process.memoryUsage.rss();
    await refused(bomb, 413, /unpacks to more/);
    expect(process.memoryUsage.rss() - before).toBeLessThan(400 * 1_048_576);
  });
});
