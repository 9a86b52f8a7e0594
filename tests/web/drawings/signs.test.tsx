import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { LashBoard } from '../../../web/src/drawings/lash-board.tsx';
import type { LashValve } from '../../../web/src/drawings/lash-facts.ts';
import { PositionPicture } from '../../../web/src/drawings/positions/position-picture.tsx';
import { StateSign } from '../../../web/src/drawings/state-sign.tsx';
import { Verdict } from '../../../web/src/drawings/verdict.tsx';
import type { VerdictKind } from '../../../web/src/drawings/verdict-kind.ts';
import { VerdictSign } from '../../../web/src/drawings/verdict-sign.tsx';
import { englishWords } from '../../../web/src/drawings/words.ts';
import { accessibleName, drawn, elementsWith, elementWith } from './markup.ts';

const verdicts: readonly VerdictKind[] = [
  'within standard',
  'within service limit',
  'past the limit',
  'undecided',
  'not measured',
];

describe('the verdict', () => {
  it('is told by shape alone: no two signs are alike, colour apart', () => {
    const shapes = verdicts.map((verdict) => drawn(<VerdictSign verdict={verdict} />).replace(/class="[^"]*"/g, ''));
    expect(new Set(shapes).size).toBe(verdicts.length);
  });

  it('never stands without its words', () => {
    for (const verdict of verdicts) expect(drawn(<Verdict verdict={verdict} />)).toContain(`<b>${verdict}</b>`);
  });

  it('only what needs a hand is in the accent colour', () => {
    const hot = verdicts.filter((verdict) =>
      drawn(<Verdict verdict={verdict} />).startsWith('<span class="verdict hot"'),
    );
    expect(hot).toEqual(['past the limit', 'undecided']);
  });
});

describe('a stock line’s state', () => {
  it('is told by shape and word', () => {
    const states = ['pick-now', 'reserved', 'short', 'issued', 'cancelled', 'not-asked'] as const;
    const shapes = states.map((state) => drawn(<StateSign state={state} />));
    expect(new Set(shapes.map((shape) => / d="([^"]+)" class="([^"]+)"/.exec(shape)?.slice(1).join())).size).toBe(6);
    states.forEach((state, i) => {
      expect(shapes[i]).toContain(englishWords.stock[state]);
    });
  });
});

describe('the lash board', () => {
  const screw: LashValve = {
    id: 'x',
    name: 'EX',
    side: 'exhaust',
    lash: [0.2, 0.21],
    out: true,
    adjustment: { kind: 'screw', after: [0.14, 0.16], text: 'set, then lock the nut' },
  };
  const moved = (id: string, from: string): LashValve => ({
    ...screw,
    id,
    name: id,
    adjustment: {
      kind: 'shim',
      fitted: 2.4,
      chosen: 2.35,
      after: [0.18, 0.19],
      source: { kind: 'moves', text: `from ${from}`, valve: from },
    },
  });

  it('draws a screw for a screw and a shim for a shim', () => {
    const markup = drawn(<LashBoard valves={[screw, moved('a', 'nowhere')]} />);
    expect(elementsWith(markup, 'data-adjuster', 'screw')).toHaveLength(1);
    expect(elementsWith(markup, 'data-adjuster', 'shim')).toHaveLength(1);
  });

  it('an arrow goes from the valve that gives to the one that takes, and none where the giver isn’t shown', () => {
    const markup = drawn(<LashBoard valves={[moved('a', 'b'), moved('b', 'a'), moved('c', 'nowhere')]} />);
    expect([...markup.matchAll(/data-move="([^"]+)"/g)].map((match) => match[1])).toEqual(['b a', 'a b']);
  });

  it('stacked for a phone it keeps every valve and drops the arrows for their words', () => {
    const markup = drawn(<LashBoard valves={[moved('a', 'b'), moved('b', 'a')]} stacked />);
    expect(markup.match(/data-valve=/g)).toHaveLength(2);
    expect(markup).not.toContain('data-move');
    expect(markup).toContain('from b');
  });
});

describe('the picture of where to measure', () => {
  const levels = [
    { height: 10, across: null, along: null },
    { height: 40, across: 88.01, along: null },
  ];

  it('says where, and makes that place alone heavy', () => {
    const facts = { kind: 'bore', levels, active: { level: 1, axis: 'along' } } as const;
    const markup = drawn(<PositionPicture facts={facts} />);
    expect(accessibleName(markup)).toBe('bore: measure at B, 40 mm, along the pin');
    expect([...markup.matchAll(/data-active="([^"]+)"/g)].map((match) => match[1])).toEqual(['along']);
    expect(elementsWith(markup, 'class', 'hotball')).toHaveLength(1);
    expect(markup).toContain('88.010');
  });

  it('with every place read nothing is heavy', () => {
    const markup = drawn(<PositionPicture facts={{ kind: 'bore', levels, active: null }} />);
    expect(accessibleName(markup)).toBe('bore: every position measured');
    expect(markup).not.toContain('hotline');
  });

  it('of six straightedge lines the third is asked', () => {
    const facts = { kind: 'flatness', lines: [0.02, 0.03, null, null, null, null], active: 2 } as const;
    const markup = drawn(<PositionPicture facts={facts} decimals={2} />);
    expect(markup.match(/data-line=/g)).toHaveLength(6);
    expect(elementWith(markup, 'data-line', '3')).toContain('hotline');
  });
});

describe('the colours', () => {
  const css = readFileSync(new URL('../../../web/src/kit/tokens.css', import.meta.url), 'utf8');

  const theme = (selector: string) => {
    const block = css.slice(css.indexOf(selector));
    return new Map(
      [...block.slice(0, block.indexOf('}')).matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map((m) => [
        m[1] ?? '',
        m[2] ?? '',
      ]),
    );
  };
  /** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
  const luminance = (hex: string) =>
    [1, 3, 5]
      .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
      .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
      .reduce((sum, c, i) => sum + c * ([0.2126, 0.7152, 0.0722][i] ?? 0), 0);
  const ratio = (a: string, b: string) => {
    const [light, dark] = [luminance(a), luminance(b)].sort((p, q) => q - p);
    return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
  };
  const pairs = [
    ['ink', 'paper', 7],
    ['ink', 'paper-2', 7],
    ['ink', 'paper-3', 4.5],
    ['ink', 'raised', 7],
    ['ink-2', 'paper', 4.5],
    ['ink-2', 'paper-2', 4.5],
    ['ink-2', 'raised', 4.5],
    ['ink-3', 'paper', 4.5],
    ['line', 'paper', 3],
    ['line', 'raised', 3],
    ['accent', 'paper', 4.5],
    ['accent', 'paper-2', 4.5],
    ['accent', 'raised', 4.5],
    ['on-accent', 'accent', 4.5],
    ['quiet', 'paper', 4.5],
    ['quiet', 'paper-2', 4.5],
    ['quiet', 'raised', 4.5],
    ['quiet', 'quiet-tint', 4.5],
    ['ink', 'quiet-tint', 4.5],
    ['ink', 'accent-tint', 4.5],
  ] as const;

  it.each([
    ['day', '[data-theme="light"]'],
    ['night', '[data-theme="dark"] {'],
  ])('letter readably by %s', (_, selector) => {
    const colours = theme(selector);
    expect(colours.size).toBe(14);
    for (const [front, ground, least] of pairs)
      expect(
        ratio(colours.get(front) ?? '', colours.get(ground) ?? ''),
        `${front} on ${ground}`,
      ).toBeGreaterThanOrEqual(least);
  });

  it('night by the system’s choice and night by the terminal’s are the same', () => {
    expect([...theme(':root:not([data-theme="light"])')]).toEqual([...theme('[data-theme="dark"] {')]);
  });
});
