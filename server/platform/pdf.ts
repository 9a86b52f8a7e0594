import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';

const { resolve } = createRequire(import.meta.url);
const faces = {
  regular: resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf'),
  bold: resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf'),
} as const;

/** A PDF being drawn, with the faces `regular` and `bold` at hand; it has no page yet. */
export type Pdf = InstanceType<typeof PDFDocument>;

/** Nothing of the hour goes into the file: the same facts make the same bytes. */
export function openPdf(title: string): Pdf {
  const whenever = new Date(0);
  const pdf = new PDFDocument({
    autoFirstPage: false,
    bufferPages: true,
    margin: 0,
    info: { Title: title, Creator: 'Crosshatch', Producer: 'Crosshatch', CreationDate: whenever, ModDate: whenever },
  });
  for (const [weight, file] of Object.entries(faces)) pdf.registerFont(weight, file);
  return pdf;
}

/** Ends what `draw` draws, and gives its bytes. */
export async function drawnPdf(pdf: Pdf, draw: (pdf: Pdf) => void): Promise<Buffer> {
  const pieces: Buffer[] = [];
  const whole = new Promise<Buffer>((resolved, failed) => {
    pdf.on('data', (piece: Buffer) => pieces.push(piece));
    pdf.on('end', () => resolved(Buffer.concat(pieces)));
    pdf.on('error', failed);
  });
  draw(pdf);
  pdf.end();
  return whole;
}
