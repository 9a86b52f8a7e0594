import { deflateSync } from 'node:zlib';
import sharp from 'sharp';

/** A picture of so many pixels, left half dark: turned upright or not can be told from it. */
export function plainPicture(width = 400, height = 300): ReturnType<typeof sharp> {
  const dark = { create: { width: Math.floor(width / 2), height, channels: 3 as const, background: '#222' } };
  return sharp({ create: { width, height, channels: 3, background: '#eee' } }).composite([
    { input: dark, left: 0, top: 0 },
  ]);
}

export const jpeg = (width?: number, height?: number): Promise<Buffer> => plainPicture(width, height).jpeg().toBuffer();

/** As a phone writes it: where and when it was taken, by which phone, lying on its side. */
export async function phonePicture(taken = '2026:11:20 09:30:00'): Promise<Buffer> {
  return plainPicture()
    .withExif({
      IFD0: { Make: 'Phone of a test', Orientation: '6' },
      IFD2: { DateTimeOriginal: taken, OffsetTimeOriginal: '+01:00' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '59/1 54/1 30/1',
        GPSLongitudeRef: 'E',
        GPSLongitude: '10/1 45/1 0/1',
      },
    })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
}

/** The least that is a whole PDF. */
export function pdf(pages = 1, extra = ''): Buffer {
  const body = `%PDF-1.4\n1 0 obj <</Type /Catalog /Pages 2 0 R ${extra}>> endobj\n2 0 obj <</Type /Pages /Kids [3 0 R] /Count ${pages}>> endobj\n3 0 obj <</Type /Page /Parent 2 0 R /MediaBox [0 0 200 200]>> endobj\n`;
  return Buffer.from(
    `${body}xref\n0 1\n0000000000 65535 f \ntrailer <</Root 1 0 R /Size 4>>\nstartxref\n${body.length}\n%%EOF\n`,
  );
}

/** A PNG that claims to be a wall of pixels and is a few kilobytes. */
export function bomb(side: number): Buffer {
  const chunk = (name: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(name), data]);
    const head = Buffer.alloc(4);
    head.writeUInt32BE(data.length);
    const check = Buffer.alloc(4);
    check.writeUInt32BE(crc(body));
    return Buffer.concat([head, body, check]);
  };
  const header = Buffer.alloc(13);
  header.writeUInt32BE(side, 0);
  header.writeUInt32BE(side, 4);
  header.set([1, 0, 0, 0, 0], 8);
  const rows = deflateSync(Buffer.alloc((side / 8 + 1) * side));
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk('IHDR', header), chunk('IDAT', rows), chunk('IEND', Buffer.alloc(0))]);
}
function crc(data: Buffer): number {
  let value = 0xffffffff;
  for (const byte of data) {
    value ^= byte;
    for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  }
  return (value ^ 0xffffffff) >>> 0;
}
