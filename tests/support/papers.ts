import { inflateSync } from 'node:zlib';

type Piece = string | Buffer;

/** An object of a PDF that is a stream. */
export const stream = (dict: string, content: Buffer): Piece =>
  Buffer.concat([Buffer.from(`<<${dict} /Length ${content.length}>>\nstream\n`), content, Buffer.from('\nendstream')]);

/** A PDF of numbered objects, with its table of where they stand. */
export function paper(objects: readonly Piece[], trailer = ''): Buffer {
  const parts = [Buffer.from('%PDF-1.7\n')];
  let at = 9;
  const places = objects.map((object, index) => {
    const whole = Buffer.concat([Buffer.from(`${index + 1} 0 obj\n`), Buffer.from(object), Buffer.from('\nendobj\n')]);
    parts.push(whole);
    at += whole.length;
    return `${String(at - whole.length).padStart(10, '0')} 00000 n \n`;
  });
  const end = `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${places.join('')}trailer\n<</Size ${objects.length + 1} /Root 1 0 R ${trailer}>>\nstartxref\n${at}\n%%EOF\n`;
  return Buffer.concat([...parts, Buffer.from(end)]);
}

/** A page of a delivery note with a phone's photo in it, told of in every way that a PDF can tell where it was made. */
export function telltalePaper(photo: Buffer, place: string): Buffer {
  const words = Buffer.from('BT /F1 12 Tf 20 150 Td (Barrel replated, 88.02 mm) Tj ET');
  const xmp = Buffer.from(`<?xpacket?><x:xmpmeta><photoshop:City>${place}</photoshop:City></x:xmpmeta>`);
  return paper(
    [
      '<</Type /Catalog /Pages 2 0 R /Metadata 7 0 R>>',
      '<</Type /Pages /Kids [3 0 R] /Count 1>>',
      `<</Type /Page /Parent 2 0 R /MediaBox [0 0 200 200] /Contents 4 0 R /Metadata 7 0 R
        /Resources <</Font <</F1 5 0 R>> /XObject <</Im0 6 0 R>>>>
        /PieceInfo <</Drawing <</Private (${place})>>>>
        /VP [<</Type /Viewport /BBox [0 0 200 200] /Measure <</Type /Measure /Subtype /GEO /GPTS [59.9 10.7]>> /Name (${place})>>]>>`,
      stream('', words),
      '<</Type /Font /Subtype /Type1 /BaseFont /Helvetica>>',
      stream(
        '/Type /XObject /Subtype /Image /Width 400 /Height 300 /ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter /DCTDecode /Metadata 7 0 R',
        photo,
      ),
      stream('/Type /Metadata /Subtype /XML', xmp),
      `<</Title (${place}) /Author (${place}) /Producer (Phone of a test)>>`,
      stream('/Note /OfAnOlderState', Buffer.from(place)),
    ],
    '/Info 8 0 R',
  );
}

/** Everything that a PDF holds, its packed streams unpacked: to look for words in. */
export function insideOf(pdf: Buffer): string {
  const inside = [pdf];
  for (let at = pdf.indexOf('stream'); at >= 0; at = pdf.indexOf('stream', at + 6)) {
    const from = pdf.indexOf('\n', at) + 1;
    try {
      inside.push(inflateSync(pdf.subarray(from), { maxOutputLength: 10_000_000 }));
    } catch {
      // Not packed, and looked through as it stands.
    }
  }
  return Buffer.concat(inside).toString('latin1');
}

/** The JPEG pictures in a PDF, by where each begins and ends. */
export function jpegsIn(pdf: Buffer): readonly Buffer[] {
  const found: Buffer[] = [];
  const begin = Buffer.from([0xff, 0xd8, 0xff]);
  for (let at = pdf.indexOf(begin); at >= 0; at = pdf.indexOf(begin, at + 3)) {
    found.push(pdf.subarray(at, pdf.indexOf('endstream', at)));
  }
  return found;
}
