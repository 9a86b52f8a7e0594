import { type Bench, tellKept } from './bench.ts';
import type { Floor } from './floor.ts';
import { judge } from './judging.ts';
import { key, strike } from './keying.ts';
import { measure } from './measuring.ts';

/** The bore of 0417 as Nadia read it; its piston once at the wrong height, struck and read again. */
export function measureUndecided(bench: Bench, { when }: Floor): void {
  const by = 'nadia';
  const round = 'as received';
  const piston = { dimension: 'piston', by, round } as const;
  key(bench, { ...piston, at: when(0, '09:24'), seen: [{ position: 'at', value: 87.918 }] });
  judge(bench, { ...piston, at: when(0, '09:24') });
  tellKept(bench, { at: when(0, '09:24'), by });
  strike(bench, {
    dimension: 'piston',
    position: 'at',
    at: when(0, '09:27'),
    by,
    reason: 'read 19 mm above the skirt edge, not 9 mm',
  });
  key(bench, { ...piston, at: when(0, '09:29'), seen: [{ position: 'at', value: 87.959 }] });
  judge(bench, { ...piston, at: when(0, '09:29') });
  tellKept(bench, { at: when(0, '09:29'), by });
  measure(bench, {
    dimensions: [
      'ring-gap-top',
      'ring-gap-second',
      'pin',
      'pin-boss',
      'small-end',
      'rod-side',
      'rod-radial',
      'cylinder-face',
    ],
    round,
    at: when(0, '09:34'),
    by,
    worn: 0.55,
    apart: 4,
  });
  const figures: readonly (readonly [string, number])[] = [
    ['A-across', 88.048],
    ['A-along', 88.039],
    ['B-across', 88.041],
    ['B-along', 88.034],
    ['C-across', 88.031],
    ['C-along', 88.029],
  ];
  key(bench, {
    dimension: 'bore',
    by,
    round,
    at: when(0, '10:32'),
    seen: figures.map(([position, value]) => ({ position, value })),
  });
  for (const dimension of ['bore', 'bore-out-of-round', 'bore-taper', 'clearance'])
    judge(bench, { dimension, by, round, at: when(0, '10:38') });
  tellKept(bench, { at: when(0, '10:38'), by });
}
