import type { LooseShells, LooseShellsFound } from '#contracts/loose-shells.ts';
import { useWords } from '../../../words/words.tsx';
import { ListField, TextField } from './pane-fields.tsx';
import { PaneFrame } from './pane-frame.tsx';
import { blank, given, linesOf, plain, quantityOf } from './typed.ts';
import { type Keyed, useKeyed } from './use-keyed.ts';
import { useLoose } from './use-loose.ts';

const usual: Keyed = {};
const needed = ['journals', 'housings', 'table', 'journal', 'housing'] as const;

/** A line a class: its mark, and its diameters from and to, mm. */
const classesOf = (text: string | undefined): LooseShells['journals'] =>
  linesOf(text).map(({ cells: [mark = '', low = '?', high = '?'] }) => ({
    mark,
    low: quantityOf(low, 'mm'),
    high: quantityOf(high, 'mm'),
  }));

/** The maker's table as it is printed: the housings' marks above, a line a journal below. */
function cellsOf(text: string | undefined): LooseShells['choices'] {
  const [head, ...rows] = linesOf(text).map(({ cells }) => cells);
  const wide = rows[0]?.length ?? 0;
  // What stands in the corner, if anything does, is no housing.
  const housings = head === undefined ? [] : head.length === wide ? head.slice(1) : head;
  return rows.flatMap(([journal = '', ...grades]) =>
    grades.flatMap((grade, at) => {
      const housing = housings[at];
      return housing === undefined ? [] : [{ journal, housing, grade }];
    }),
  );
}

const shellsOf = (text: string | undefined): NonNullable<LooseShells['shells']> =>
  linesOf(text).map(({ cells: [grade = '', low = '?', high = low] }) => ({
    grade,
    low: quantityOf(low, 'mm'),
    high: quantityOf(high, 'mm'),
  }));

/** One of the marks, or a diameter. */
function sizeOf(
  classes: LooseShells['journals'],
  text: string | undefined,
  uncertainty: string | undefined,
): LooseShells['journal'] {
  const typed = text?.trim() ?? '';
  if (classes.some(({ mark }) => mark === typed)) return { mark: typed };
  return { diameter: quantityOf(plain(typed), 'mm'), ...given('uncertainty', uncertainty, 'mm') };
}

function bodyOf(keyed: Keyed): LooseShells | undefined {
  if (needed.some((name) => blank(keyed[name]))) return undefined;
  const [journals, housings] = [classesOf(keyed.journals), classesOf(keyed.housings)];
  const shells = shellsOf(keyed.shells);
  return {
    journals,
    housings,
    choices: cellsOf(keyed.table),
    journal: sizeOf(journals, keyed.journal, keyed.journalU),
    housing: sizeOf(housings, keyed.housing, keyed.housingU),
    ...(shells.length === 0 ? {} : { shells }),
  };
}

/** Which grade of bearing shell belongs between a journal and its housing, by the maker's table. */
export function ShellsPane() {
  const words = useWords().loosePanes.shells;
  const { keyed, put, clear } = useKeyed('bearing-shells', usual);
  const body = bodyOf(keyed);
  const { found, faults, error } = useLoose<LooseShellsFound>('bearing-shells', body);
  const of = (name: string, pointer: string) => ({ name, keyed, put, error: faults.at(pointer) });
  const missing = needed.filter((name) => blank(keyed[name])).map((name) => words[name].toLowerCase());
  return (
    <PaneFrame
      kind="bearing-shells"
      given={found === undefined ? undefined : body}
      missing={missing}
      faults={faults}
      error={error}
      clear={clear}
      cautions={words.cautions}
      fields={
        <div className="loose-inputs">
          <TextField {...of('journal', '/journal')} label={words.journal} hint={words.sizeHint} />
          <TextField {...of('journalU', '/journal/uncertainty')} label={words.uncertainty(words.journal)} unit="mm" />
          <TextField {...of('housing', '/housing')} label={words.housing} hint={words.sizeHint} />
          <TextField {...of('housingU', '/housing/uncertainty')} label={words.uncertainty(words.housing)} unit="mm" />
          <ListField {...of('journals', '/journals')} label={words.journals} hint={words.classHint} rows={3} />
          <ListField {...of('housings', '/housings')} label={words.housings} hint={words.classHint} rows={3} />
          <ListField {...of('table', '/choices')} label={words.table} hint={words.tableHint} rows={4} />
          <ListField {...of('shells', '/shells')} label={words.shells} hint={words.shellsHint} rows={3} />
        </div>
      }
      found={found === undefined || body === undefined ? null : <ShellsFound found={found} choices={body.choices} />}
    />
  );
}

interface FoundProps {
  readonly found: LooseShellsFound;
  readonly choices: LooseShells['choices'];
}

/** The grade, the clearance of each that it may be, and the table with the cells it was read in. */
function ShellsFound({ found, choices }: FoundProps) {
  const words = useWords().loosePanes.shells;
  const journals = [...new Set(choices.map(({ journal }) => journal))];
  const housings = [...new Set(choices.map(({ housing }) => housing))];
  return (
    <>
      <p className={found.grade === null ? 'hot' : ''}>
        <b>{words.take(found.words)}</b>
      </p>
      <ul className="pane-log">
        {found.grades.map(({ grade, clearance }) =>
          clearance === null ? null : (
            <li key={grade}>
              {words.clearance(grade)}{' '}
              <b className="num nowrap">{words.fromTo(clearance.low, clearance.high ?? '', clearance.unit)}</b>
            </li>
          ),
        )}
      </ul>
      <div className="shell-table">
        <table>
          <caption className="note">{words.read}</caption>
          <thead>
            <tr>
              <td />
              {housings.map((housing) => (
                <th key={housing} scope="col" className={found.housings.includes(housing) ? 'met' : ''}>
                  {housing}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {journals.map((journal) => (
              <tr key={journal}>
                <th scope="row" className={found.journals.includes(journal) ? 'met' : ''}>
                  {journal}
                </th>
                {housings.map((housing) => {
                  const met = found.journals.includes(journal) && found.housings.includes(housing);
                  const cell = choices.find((one) => one.journal === journal && one.housing === housing);
                  return (
                    <td key={housing} className={met ? 'met' : ''}>
                      {met ? <b>{cell?.grade}</b> : (cell?.grade ?? '–')}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
