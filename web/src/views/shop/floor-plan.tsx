import type { ShopFacts } from '#contracts/shop.ts';
import { useWords } from '../../words/words.tsx';

type Bay = Pick<ShopFacts['bays'][number], 'id' | 'name' | 'grid'>;

const CELL = { width: 150, height: 64 } as const;

/** Cells no bay lies on, counted from the top left, row by row. */
const isFree =
  (bays: readonly Bay[], columns: number) =>
  (cell: number): boolean =>
    !bays.some(({ grid }) => {
      const [column, row] = [(cell % columns) + 1, Math.floor(cell / columns) + 1];
      return (
        column >= grid.column && column < grid.column + grid.width && row >= grid.row && row < grid.row + grid.height
      );
    });

/** The bays on their cells, drawn as walls; the one that is being set is drawn thick. */
export function FloorPlan({ bays, setting }: { readonly bays: readonly Bay[]; readonly setting?: string }) {
  const words = useWords().shop.bays;
  if (bays.length === 0) return null;
  const columns = Math.max(...bays.map(({ grid }) => grid.column + grid.width - 1));
  const rows = Math.max(...bays.map(({ grid }) => grid.row + grid.height - 1));
  return (
    <svg
      className="dwg floor-plan"
      viewBox={`-4 -4 ${columns * CELL.width + 8} ${rows * CELL.height + 8}`}
      role="img"
      aria-label={words.plan}
    >
      {Array.from({ length: columns * rows }, (_, cell) => cell)
        .filter(isFree(bays, columns))
        .map((cell) => (
          <circle
            key={cell}
            cx={((cell % columns) + 0.5) * CELL.width}
            cy={(Math.floor(cell / columns) + 0.5) * CELL.height}
            r={2.5}
            className="ink-fill"
          />
        ))}
      {bays.map(({ id, name, grid }) => (
        <g key={id}>
          <rect
            x={(grid.column - 1) * CELL.width}
            y={(grid.row - 1) * CELL.height}
            width={grid.width * CELL.width}
            height={grid.height * CELL.height}
            className={id === setting ? 'bay-cell set' : 'bay-cell'}
          />
          <text
            x={(grid.column - 1 + grid.width / 2) * CELL.width}
            y={(grid.row - 1 + grid.height / 2) * CELL.height + 5}
            textAnchor="middle"
          >
            {name}
          </text>
        </g>
      ))}
    </svg>
  );
}
