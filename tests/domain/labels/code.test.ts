import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelAlphabet } from '#domain/labels/check-symbol.ts';
import { type CodeKind, codeInGroups, readCode, writeCode } from '#domain/labels/code.ts';

const symbols = (length: number) =>
  fc.array(fc.constantFrom(...labelAlphabet), { minLength: length, maxLength: length }).map((each) => each.join(''));
const kinds: readonly CodeKind[] = ['engine', 'tray', 'bin', 'part', 'badge'];
const anyCode = fc
  .constantFrom(...kinds)
  .chain((kind) =>
    fc.record({ kind: fc.constant(kind), mark: symbols(2), serial: symbols(kind === 'badge' ? 16 : 8) }),
  );
const exchanged = (code: string, one: number, other: number) => {
  const each = [...code];
  [each[one], each[other]] = [each[other] ?? '', each[one] ?? ''];
  return each.join('');
};

describe('a label’s code', () => {
  it('is read as it was written, in any case, with spaces or dashes, as people type it', () => {
    fc.assert(
      fc.property(anyCode, (code) => {
        const written = writeCode(code);
        expect(written).toMatch(/^XH[0-9A-Z]{12}([0-9A-Z]{8})?$/);
        for (const typed of [
          written,
          written.toLowerCase(),
          codeInGroups(written),
          ` ${written.slice(0, 5)}-${written.slice(5)} `,
        ]) {
          expect(readCode(typed)).toEqual({ ok: true, code });
        }
      }),
    );
  });

  it('typed with the letters that are left out for looking like digits means those digits', () => {
    const written = writeCode({ kind: 'bin', mark: '01', serial: '10011001' });
    expect(readCode(written.replaceAll('0', 'o').replaceAll('1', 'l'))).toMatchObject({
      ok: true,
      code: { mark: '01' },
    });
  });

  it('with any one symbol wrong is refused', () => {
    fc.assert(
      fc.property(anyCode, (code) => {
        const written = writeCode(code);
        for (let at = 2; at < written.length; at += 1)
          for (const other of labelAlphabet) {
            if (other === written[at]) continue;
            expect(readCode(`${written.slice(0, at)}${other}${written.slice(at + 1)}`).ok).toBe(false);
          }
      }),
      { numRuns: 60 },
    );
  });

  it('with any two symbols that changed places is refused, next to each other or apart', () => {
    fc.assert(
      fc.property(anyCode, (code) => {
        const written = writeCode(code);
        for (let one = 2; one < written.length; one += 1)
          for (let other = one + 1; other < written.length; other += 1) {
            if (written[one] === written[other]) continue;
            expect(readCode(exchanged(written, one, other)).ok).toBe(false);
          }
      }),
      { numRuns: 60 },
    );
  });

  it('that lost or gained a symbol is mistyped, and text that begins otherwise is not ours', () => {
    const written = writeCode({ kind: 'tray', mark: 'Q7', serial: '7K3M9QZT' });
    expect(written).toBe('XHTQ77K3M9QZTW');
    expect(codeInGroups(written)).toBe('XHT Q7 7K3M 9QZT W');
    for (const wrong of [written.slice(0, -1), `${written}0`, 'XHT', 'XHTQ77K3M9QZUW']) {
      expect(readCode(wrong)).toEqual({ ok: false, reason: 'mistyped' });
    }
    for (const other of ['', 'H355-P', '4006381333931', 'XH', 'XHZQ77K3M9QZTW', 'https://shop.example/']) {
      expect(readCode(other)).toEqual({ ok: false, reason: 'not ours' });
    }
  });
});
