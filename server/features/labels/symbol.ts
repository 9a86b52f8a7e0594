import bwipjs from 'bwip-js/node';
import type { SymbolKind } from '#contracts/labels.ts';
import type { SymbolModules } from '#domain/labels/mark.ts';

/** Modules that stay empty around a symbol: ISO/IEC 16022 asks for one, ISO/IEC 18004 for four. */
const quietZone: Readonly<Record<SymbolKind, number>> = { datamatrix: 1, qr: 4 };

/** Which rows and columns of a code are dark. */
export function symbolOf(code: string, kind: SymbolKind): SymbolModules {
  const [drawn] = kind === 'qr' ? bwipjs.raw('qrcode', code, 'eclevel=M') : bwipjs.raw('datamatrix', code);
  if (drawn === undefined || !('pixs' in drawn)) throw new Error(`no symbol was made of ${code.length} characters`);
  return {
    columns: drawn.pixx,
    rows: drawn.pixy,
    dark: Array.from(drawn.pixs, (module) => module === 1),
    quiet: quietZone[kind],
  };
}
