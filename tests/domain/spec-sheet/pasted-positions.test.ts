import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readPastedPositions } from '#domain/spec-sheet/pasted-positions.ts';

const placed = (text: string, unit = 'mm') => {
  const read = readPastedPositions(text, unit);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.positions.map(({ x, y }) => `${x} ${y}`);
};
const faults = (text: string) => {
  const read = readPastedPositions(text, 'mm');
  return read.ok ? [] : read.faults.map(({ line, detail }) => `${line} ${detail}`);
};

describe('coordinates out of a table', () => {
  test('are x and y in tightening order, parted as tables are parted', () => {
    expect(placed('-50.0 50.5\n50.0 -50.5')).toEqual(['-50.0 50.5', '50.0 -50.5']);
    expect(placed('-50,0\t50,5\r\n\r\n50,0\t-50,5\r\n')).toEqual(['-50.0 50.5', '50.0 -50.5']);
    expect(placed('x;y\n-50,0;50,5')).toEqual(['-50.0 50.5']);
    expect(placed('-50.0, 50.5')).toEqual(['-50.0 50.5']);
    expect(placed('-50,50\n1,2')).toEqual(['-50 50', '1 2']);
    expect(placed('\u221250.0 50.5')).toEqual(['-50.0 50.5']);
  });

  test('come with their place in the order, in any order of lines', () => {
    expect(placed('no x y\n2 50 -50\n1 -50 50\n3 -50 -50')).toEqual(['-50 50', '50 -50', '-50 -50']);
    expect(placed('1,-50.0,50.5\n2,50.0,-50.5')).toEqual(['-50.0 50.5', '50.0 -50.5']);
  });

  test('may be fractions of an inch', () => {
    expect(placed('1/2 -3/4', 'in')).toEqual(['1/2 -3/4']);
  });

  test('that can’t be read are told by line', () => {
    expect(faults('')).toEqual(['1 No coordinates are here.']);
    expect(faults('1 2\n3')).toEqual([expect.stringContaining('2 takes two figures')]);
    expect(faults('1 2\n1 2 3')).toEqual(['2 has 3 figures, and the first line has 2.']);
    expect(faults('1 2\n1 1/2')).toEqual(['2 "1/2" is no mm that can be read one way only.']);
    expect(faults('1 2\n1 two')).toEqual(['2 "two" is no mm that can be read one way only.']);
    expect(faults('-50,0,50,5')).toEqual([expect.stringContaining('A decimal comma needs blanks')]);
    expect(faults('1 0 0\n1 5 5\n4 7 7')).toEqual([
      '2 1 is on line 1 already.',
      '3 "4" is no place in an order of 3: write 1 to 3.',
    ]);
    expect(faults(Array.from({ length: 61 }, (_, at) => `${at} ${at}`).join('\n'))).toEqual([
      '61 A set has at most 60 fasteners.',
    ]);
  });

  test('in a shuffled order come out as those in order do', () => {
    const figure = fc.integer({ min: -99_999, max: 99_999 }).map((of) => (of / 100).toFixed(2));
    const table = fc.array(fc.tuple(figure, figure), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(table, fc.infiniteStream(fc.nat()), (rows, keys) => {
        const lines = rows.map(([x, y], index) => `${index + 1};${x};${y}`);
        const shuffled = lines
          .map((line) => ({ line, key: keys.next().value ?? 0 }))
          .toSorted((a, b) => a.key - b.key)
          .map(({ line }) => line);
        expect(placed(shuffled.join('\n'))).toEqual(rows.map(([x, y]) => `${x} ${y}`));
      }),
    );
  });
});
