import type { Mark, Measure } from '#domain/labels/mark.ts';
import type { LabelStock, Placed } from '#domain/labels/stock.ts';
import type { Shape } from '#domain/section/compact-shapes.ts';
import { drawnPdf, openPdf, type Pdf } from '#platform/pdf.ts';

const POINTS_PER_MM = 72 / 25.4;

let measuring: Pdf | undefined;

/** How wide words are in the face they are printed in. */
export const measure: Measure = (words, size, weight) => {
  measuring ??= openPdf('');
  return measuring.font(weight).fontSize(100).widthOfString(words) * (size / 100);
};

function fill(sheet: Pdf, of: Shape): void {
  if ('d' in of) sheet.path(of.d);
  else sheet.circle(of.circle[0], of.circle[1], of.circle[2]);
  sheet.fill(of.paint === 'ink' ? 'black' : 'white');
}

function draw(sheet: Pdf, mark: Mark): void {
  switch (mark.kind) {
    case 'text':
      if (mark.words !== '') {
        sheet.font(mark.weight).fontSize(mark.size).fillColor('black');
        sheet.text(mark.words, mark.x, mark.y, { lineBreak: false, baseline: 'alphabetic' });
      }
      return;
    case 'line':
      sheet
        .moveTo(...mark.from)
        .lineTo(...mark.to)
        .lineWidth(mark.wide)
        .stroke('black');
      return;
    case 'runs':
      for (const { x, y, width } of mark.runs) sheet.rect(x, y, width, mark.module);
      sheet.fill('black');
      return;
    case 'shapes':
      sheet.save().translate(mark.x, mark.y).scale(mark.scale);
      for (const shape of mark.shapes) fill(sheet, shape);
      sheet.restore();
  }
}

export interface PlacedLabel {
  readonly marks: readonly Mark[];
  readonly place: Placed;
}

/** The labels as a PDF in their true size, on as many pages as it takes. */
export async function labelSheet(stock: LabelStock, labels: readonly PlacedLabel[], title: string): Promise<Buffer> {
  return drawnPdf(openPdf(title), (sheet) => {
    let page = -1;
    for (const { marks, place } of labels) {
      if (place.page !== page) {
        sheet.addPage({ size: [stock.page.width * POINTS_PER_MM, stock.page.height * POINTS_PER_MM], margin: 0 });
        page = place.page;
      }
      sheet.save().scale(POINTS_PER_MM).translate(place.x, place.y);
      for (const mark of marks) draw(sheet, mark);
      sheet.restore();
    }
  });
}
