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
