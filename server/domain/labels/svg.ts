import type { Shape } from '../section/compact-shapes.ts';
import type { Mark } from './mark.ts';
import type { Size } from './stock.ts';

const at = (value: number): string => String(Math.round(value * 1000) / 1000);
const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const fillOf = ({ paint }: Shape): string => (paint === 'ink' ? '#000' : '#fff');

const shape = (of: Shape): string =>
  'd' in of
    ? `<path d="${of.d}" fill="${fillOf(of)}"/>`
    : `<circle cx="${of.circle[0]}" cy="${of.circle[1]}" r="${of.circle[2]}" fill="${fillOf(of)}"/>`;

function drawn(mark: Mark): string {
  switch (mark.kind) {
    case 'text': {
      if (mark.words === '') return '';
      const weight = mark.weight === 'bold' ? ' font-weight="700"' : '';
      // Set to the width it was measured at, whatever face is at hand.
      return `<text x="${at(mark.x)}" y="${at(mark.y)}" font-size="${at(mark.size)}"${weight} textLength="${at(mark.width)}" lengthAdjust="spacingAndGlyphs">${escaped(mark.words)}</text>`;
    }
    case 'line':
      return `<path d="M${mark.from.map(at).join(' ')}L${mark.to.map(at).join(' ')}" stroke="#000" stroke-width="${at(mark.wide)}"/>`;
    case 'runs':
      return `<path shape-rendering="crispEdges" d="${mark.runs.map(({ x, y, width }) => `M${at(x)} ${at(y)}h${at(width)}v${at(mark.module)}h${at(-width)}z`).join('')}"/>`;
    case 'shapes':
      return `<g transform="translate(${at(mark.x)} ${at(mark.y)}) scale(${at(mark.scale)})">${mark.shapes.map(shape).join('')}</g>`;
  }
}

/** The label as an SVG image in its true size, black on white; `title` is what it is to those who can't see it. */
export function labelSvg(marks: readonly Mark[], { width, height }: Size, title: string): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${at(width)}mm" height="${at(height)}mm" viewBox="0 0 ${at(width)} ${at(height)}" role="img" font-family="'DejaVu Sans Condensed','Roboto Condensed','Arial Narrow',sans-serif">`,
    `<title>${escaped(title)}</title><rect width="${at(width)}" height="${at(height)}" fill="#fff"/>`,
    ...marks.map(drawn),
    '</svg>',
  ].join('');
}
