/**
 * What stands for photographs in the demo: drawings made by this program, and marked so. No letter of a font is in them,
 * so that they come out the same on every machine.
 */

const INK = '#1c2330';
const PAPER = '#f1ead9';
const WIDTH = 1200;
const HEIGHT = 900;

type Point = readonly [x: number, y: number];

/** Strokes of the letters that are needed, on a grid 4 wide and 6 high. */
const strokes: Readonly<Record<string, readonly (readonly Point[])[]>> = {
  D: [
    [
      [0, 0],
      [2, 0],
      [4, 2],
      [4, 4],
      [2, 6],
      [0, 6],
      [0, 0],
    ],
  ],
  R: [
    [
      [0, 6],
      [0, 0],
      [3, 0],
      [4, 1],
      [4, 2],
      [3, 3],
      [0, 3],
    ],
    [
      [2, 3],
      [4, 6],
    ],
  ],
  A: [
    [
      [0, 6],
      [2, 0],
      [4, 6],
    ],
    [
      [1, 4],
      [3, 4],
    ],
  ],
  W: [
    [
      [0, 0],
      [1, 6],
      [2, 2],
      [3, 6],
      [4, 0],
    ],
  ],
  I: [
    [
      [2, 0],
      [2, 6],
    ],
  ],
  N: [
    [
      [0, 6],
      [0, 0],
      [4, 6],
      [4, 0],
    ],
  ],
  G: [
    [
      [4, 1],
      [3, 0],
      [1, 0],
      [0, 1],
      [0, 5],
      [1, 6],
      [4, 6],
      [4, 3],
      [2, 3],
    ],
  ],
};

function lettered(text: string, [x, y]: Point, size: number): string {
  return [...text]
    .flatMap((letter, index) =>
      (strokes[letter] ?? []).map(
        (line) =>
          `<polyline points="${line.map(([dx, dy]) => `${x + (index * 5.4 + dx) * size},${y + dy * size}`).join(' ')}"/>`,
      ),
    )
    .join('');
}

/** Numbers that look like chance and are the same each time. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
}

const sheet = (body: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" viewBox="0 0 ${WIDTH} ${HEIGHT}">
<rect width="${WIDTH}" height="${HEIGHT}" fill="${PAPER}"/>
<g fill="none" stroke="${INK}" stroke-width="3" stroke-linecap="round" stroke-linejoin="round">
<rect x="24" y="24" width="${WIDTH - 48}" height="${HEIGHT - 48}" stroke-width="6"/>${body}
<rect x="${WIDTH - 330}" y="${HEIGHT - 108}" width="306" height="84" fill="${PAPER}"/>${lettered('DRAWING', [WIDTH - 308, HEIGHT - 86], 7)}</g></svg>`;

/** The wall of a bore, unrolled: cross-hatch of the hone, and scores where a ring broke through the oil. */
function scoredBore(): string {
  const next = chance(417);
  const hone = Array.from({ length: 46 }, (_, index) => {
    const at = -600 + index * 50;
    return `<path d="M${at} 780 L${at + 660} 140 M${at} 140 L${at + 660} 780" stroke-width="1" opacity="0.35"/>`;
  }).join('');
  const scores = Array.from({ length: 34 }, () => {
    const x = 500 + (next() + next() + next() - 1.5) * 170;
    const from = 180 + next() * 160;
    const lean = (next() - 0.5) * 10;
    return `<path d="M${x.toFixed(1)} ${from.toFixed(1)} L${(x + lean).toFixed(1)} ${(from + 180 + next() * 300).toFixed(1)}" stroke-width="${(1 + next() * 5).toFixed(1)}"/>`;
  }).join('');
  return `<clipPath id="wall"><rect x="110" y="140" width="980" height="640"/></clipPath><g clip-path="url(#wall)">${hone}${scores}</g>
<rect x="110" y="140" width="980" height="640"/><path d="M110 200H1090" stroke-dasharray="18 10"/>`;
}

/** A piston crown from above, with the wash marks of the mixture and a nick at its edge. */
function pistonCrown(): string {
  const wash = [300, 262, 226, 188, 150]
    .map(
      (r, index) =>
        `<circle cx="${600 + index * 9}" cy="${440 - index * 6}" r="${r}" stroke-width="${index === 0 ? 4 : 1.5}" opacity="${0.9 - index * 0.12}"/>`,
    )
    .join('');
  return `<circle cx="600" cy="440" r="340" stroke-width="5"/>${wash}<path d="M864 218l24-14 8 30z" fill="${INK}"/>
<path d="M360 330a110 110 0 0 1 150-110M690 220a110 110 0 0 1 150 110"/><path d="M600 750v30M585 780h30" stroke-width="5"/>`;
}

/** An engine as it came in: outline, fins, and oil down its base gasket. */
function engineAsItCame(): string {
  const next = chance(388);
  const fins = Array.from({ length: 9 }, (_, index) => `<path d="M430 ${210 + index * 38}H770"/>`).join('');
  const oil = Array.from({ length: 22 }, () => {
    const x = 455 + next() * 300;
    return `<path d="M${x.toFixed(0)} 560v${(18 + next() * 120).toFixed(0)}" stroke-width="${(2 + next() * 6).toFixed(1)}" opacity="0.75"/>`;
  }).join('');
  return `<path d="M450 190h300v360H450zM470 190l30-70h200l30 70M540 120V84h60v36"/>${fins}<path d="M400 550h400l120 90v110l-90 60H370l-90-60V640z"/>
<circle cx="430" cy="690" r="92"/><circle cx="430" cy="690" r="34"/><circle cx="730" cy="700" r="70"/>${oil}`;
}

/** Marks on the cam wheels level with the face of the head. */
function camMarks(): string {
  const wheel = (x: number) => {
    const teeth = Array.from({ length: 28 }, (_, index) => {
      const angle = (index / 28) * 2 * Math.PI;
      const at = (r: number) => `${(x + r * Math.cos(angle)).toFixed(1)} ${(400 + r * Math.sin(angle)).toFixed(1)}`;
      return `<path d="M${at(168)}L${at(188)}"/>`;
    }).join('');
    return `<circle cx="${x}" cy="400" r="168"/>${teeth}<circle cx="${x}" cy="400" r="40"/><path d="M${x - 168} 400h60M${x + 108} 400h60" stroke-width="7"/>`;
  };
  return `<path d="M110 400H1090" stroke-dasharray="40 12 6 12"/>${wheel(380)}${wheel(800)}<path d="M150 600h900v150H150z"/>`;
}

/** Crank gear and balancer gear in mesh, a mark of each on the line between them. */
function balancerMarks(): string {
  const gear = ([x, y]: Point, r: number, teeth: number, turned: number) => {
    const flanks = Array.from({ length: teeth }, (_, index) => {
      const angle = ((index + turned) / teeth) * 2 * Math.PI;
      const at = (radius: number) =>
        `${(x + radius * Math.cos(angle)).toFixed(1)} ${(y + radius * Math.sin(angle)).toFixed(1)}`;
      return `<path d="M${at(r - 14)}L${at(r + 14)}"/>`;
    }).join('');
    return `<circle cx="${x}" cy="${y}" r="${r}"/>${flanks}`;
  };
  return `<path d="M110 430H1090" stroke-dasharray="40 12 6 12" stroke-width="1.5"/>${gear([370, 430], 216, 36, 0)}${gear([810, 430], 216, 36, 0.5)}
<circle cx="370" cy="430" r="58"/><path d="M352 430a18 18 0 0 1 36 0"/><circle cx="810" cy="430" r="44"/><path d="M766 430h-24M878 430h-24"/>
<circle cx="548" cy="430" r="11" fill="${INK}"/><circle cx="632" cy="430" r="11" fill="${INK}"/><path d="M776 396l34-20 34 20v68l-34 20-34-20z"/><path d="M844 396l30-16 8 30-38 10z" fill="${PAPER}"/>`;
}

export const drawings = { scoredBore, pistonCrown, engineAsItCame, camMarks, balancerMarks } as const;
export type DrawingName = keyof typeof drawings;

export const drawingOf = (name: DrawingName): Buffer => Buffer.from(sheet(drawings[name]()));

const line = (text: string, y: number) => `BT /F1 12 Tf 60 ${y} Td (${text}) Tj ET\n`;

/** A page of plain text as a PDF, which says that it is made up. */
export function paperOf(lines: readonly string[]): Buffer {
  const content = lines.map((text, index) => line(text, 760 - index * 22)).join('');
  const objects = [
    '<</Type /Catalog /Pages 2 0 R>>',
    '<</Type /Pages /Kids [3 0 R] /Count 1>>',
    '<</Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R /Resources <</Font <</F1 5 0 R>>>>>>',
    `<</Length ${content.length}>>\nstream\n${content}endstream`,
    '<</Type /Font /Subtype /Type1 /BaseFont /Helvetica>>',
  ];
  let text = '%PDF-1.4\n';
  const places = objects.map((object, index) => {
    const at = text.length;
    text += `${index + 1} 0 obj\n${object}\nendobj\n`;
    return `${String(at).padStart(10, '0')} 00000 n \n`;
  });
  const start = text.length;
  text += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${places.join('')}trailer\n<</Size ${objects.length + 1} /Root 1 0 R>>\nstartxref\n${start}\n%%EOF\n`;
  return Buffer.from(text, 'latin1');
}
