import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SectionDepth } from '#domain/section/depth.ts';
import { spreadApart } from '../../../web/src/drawings/section/callouts.tsx';
import { fourStrokeProportions } from '../../../web/src/drawings/section/proportions.ts';
import { Section } from '../../../web/src/drawings/section/section.tsx';
import { accessibleName, drawn, elementWith, unsound } from './markup.ts';

const depths: readonly SectionDepth[] = ['closed', 'cover', 'head', 'cylinder', 'case'];
const has = (markup: string, layer: string) => elementWith(markup, 'data-layer', layer) !== undefined;
const strokes = ['four-stroke', 'two-stroke'] as const;
const sizes = [32, 160, 480] as const;

describe('the section', () => {
  it.each(sizes)('draws off what is off, at %i px', (size) => {
    const layers = (depth: SectionDepth) => {
      const markup = drawn(<Section size={size} depth={depth} />);
      return ['cover', 'head', 'cylinder', 'piston', 'case'].filter((layer) => has(markup, layer));
    };
    expect(layers('closed')).toEqual(['cover', 'head', 'cylinder', 'piston', 'case']);
    expect(layers('cover')).toEqual(['head', 'cylinder', 'piston', 'case']);
    expect(layers('head')).toEqual(['cylinder', 'piston', 'case']);
    expect(layers('cylinder')).toEqual(['piston', 'case']);
    expect(layers('case')).toEqual(['case']);
  });

  it.each(strokes)('a %s with its head off has no head layer, but its outline where it belongs', (stroke) => {
    const markup = drawn(<Section size={300} stroke={stroke} depth="head" />);
    expect(has(markup, 'head')).toBe(false);
    expect(elementWith(markup, 'data-off', 'head')).toContain('class="ph"');
    expect(elementWith(markup, 'data-off', 'cylinder')).toBeUndefined();
  });

  it('an open cavity is either covered or marked as open, a closed engine neither', () => {
    for (const stroke of strokes)
      for (const size of sizes)
        for (const depth of depths)
          for (const covered of [true, false]) {
            const markup = drawn(<Section stroke={stroke} size={size} depth={depth} covered={covered} />);
            expect([has(markup, 'cloth'), has(markup, 'mouth')]).toEqual(
              depth === 'closed' ? [false, false] : [covered, !covered],
            );
          }
  });

  it('a two-stroke whose cover is off keeps its head', () => {
    for (const size of sizes)
      expect(has(drawn(<Section stroke="two-stroke" size={size} depth="cover" covered={false} />), 'head')).toBe(true);
  });

  it('says which engine, how far open and whether covered', () => {
    expect(accessibleName(drawn(<Section depth="cylinder" covered name="Halden 355 0417" />))).toBe(
      'Halden 355 0417, cylinder off, covered',
    );
    expect(accessibleName(drawn(<Section size={32} depth="head" covered={false} />))).toBe(
      'four-stroke single, head off, uncovered',
    );
    expect(accessibleName(drawn(<Section />))).toBe('four-stroke single, closed');
  });

  it('beside its own words it is decoration', () => {
    const markup = drawn(<Section size={32} decorative />);
    expect(markup).toMatch(/^<svg[^>]*aria-hidden="true"/);
    expect(accessibleName(markup)).toBe('');
  });

  it('a longer stroke for its bore draws a narrower barrel and a longer throw, the deck where it was', () => {
    const square = fourStrokeProportions(98, 81.5);
    const short = fourStrokeProportions(88, 58.5);
    expect(square.halfBore).toBeLessThan(short.halfBore);
    expect(square.throw).toBeGreaterThan(short.throw);
    expect(square.throw + square.rod).toBeCloseTo(short.throw + short.rod, 9);
  });

  it('two sections on one page share no pattern', () => {
    const markup = drawn(
      <>
        <Section />
        <Section />
      </>,
    );
    const ids = [...markup.matchAll(/<pattern id="([^"]+)"/g)].map((match) => match[1]);
    expect(ids.length).toBe(16);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, id] of markup.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(id);
  });

  it('callouts keep their order and their distance, and stay on the sheet', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -300, max: 70, noNaN: true }), { minLength: 1, maxLength: 7 }),
        (heights) => {
          const wanted = [...heights].sort((a, b) => a - b);
          const placed = spreadApart(wanted, 32, 60);
          placed.forEach((y, i) => {
            expect(y).toBeLessThanOrEqual(60 + 1e-9);
            if (i > 0) expect(y - (placed[i - 1] ?? 0)).toBeGreaterThanOrEqual(32 - 1e-9);
          });
        },
      ),
    );
  });

  it('any bore and stroke gives sound markup', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 400 }),
        fc.double({ min: -10, max: 400 }),
        fc.constantFrom(...depths),
        fc.constantFrom(...strokes),
        fc.integer({ min: 24, max: 600 }),
        (bore, strokeLength, depth, stroke, size) => {
          const facts = { bore, strokeLength, depth, stroke, size };
          expect(unsound(drawn(<Section {...facts} callouts={[{ part: 'head', text: 'head' }]} />))).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });
});
