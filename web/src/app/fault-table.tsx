import type { RefusedError } from './api.ts';

type Faults = NonNullable<RefusedError['problem']['errors']>;

interface FaultTableProps {
  readonly faults: Faults;
  readonly title: string;
  /** Heads of the two columns. */
  readonly where: string;
  readonly what: string;
  /** What a place is called, where it is no row of a file. */
  readonly place?: ((pointer: string) => string) | undefined;
}

/** Everything that was wrong with a file that was sent, each at its row or place. */
export function FaultTable({ faults, title, where, what, place = (pointer) => pointer }: FaultTableProps) {
  return (
    <div role="alert">
      <p className="field-error">{title}</p>
      <div className="scroll-x faults">
        <table>
          <thead>
            <tr>
              <th scope="col">{where}</th>
              <th scope="col">{what}</th>
            </tr>
          </thead>
          <tbody>
            {faults.map(({ pointer, detail }) => (
              <tr key={pointer + detail}>
                <td className="num">{place(pointer)}</td>
                <td>{detail}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
