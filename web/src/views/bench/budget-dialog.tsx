import type { Finding, WorkedOutFinding } from '#contracts/findings.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords, type Words } from '../../words/words.tsx';
import { DrawnFinding, limitsDrawn } from './drawn-finding.tsx';

interface BudgetDialogProps {
  readonly finding: WorkedOutFinding | Finding;
  readonly open: boolean;
  readonly onClose: () => void;
}

function ruleWords(rule: WorkedOutFinding['rule'], { rule: named, statedRule }: Words['measure']['budget']): string {
  switch (rule) {
    case 'iso-14253-1-2017':
    case 'iso-14253-1-1998':
    case 'simple':
      return named[rule];
    default:
      return statedRule(Number(rule.slice('guard-factor-'.length)));
  }
}

/** What each influence brings to the uncertainty, line by line. */
export function BudgetDialog({ finding, open, onClose }: BudgetDialogProps) {
  const { measure, drawnFinding } = useWords();
  const format = useFormat();
  const { budget } = measure;
  const figure = ({ value, unit }: { value: string; unit: string }) => `${format.decimal(value)} ${unit}`;
  return (
    <Dialog
      title={budget.title}
      open={open}
      onClose={onClose}
      acts={
        <Button big kind="main" onClick={onClose}>
          {budget.close}
        </Button>
      }
    >
      <div className="scroll-x">
        <table>
          <thead>
            <tr>
              <th scope="col">{budget.line}</th>
              <th scope="col" className="n">
                {budget.share}
              </th>
              <th scope="col" className="n">
                {budget.freedom}
              </th>
            </tr>
          </thead>
          <tbody>
            {finding.budget.map((line) => (
              <tr key={line.name + line.formula}>
                <td>
                  {line.name} <span className="note num">{line.formula}</span>
                  {line.correlation === null ? null : <span className="note"> ({line.correlation})</span>}
                </td>
                <td className="n nowrap">{figure(line.contribution)}</td>
                <td className="n">
                  {line.degreesOfFreedom === null ? budget.certain : format.number(Math.round(line.degreesOfFreedom))}
                </td>
              </tr>
            ))}
            <tr>
              <th scope="row">{budget.standard}</th>
              <td className="n nowrap">{figure(finding.standardUncertainty)}</td>
              <td className="n">
                {finding.degreesOfFreedom === null
                  ? budget.certain
                  : format.number(Math.round(finding.degreesOfFreedom))}
              </td>
            </tr>
            <tr>
              <th scope="row">{budget.expanded(format.number(finding.coverageFactor, 2))}</th>
              <td className="n nowrap">{figure(finding.expandedUncertainty)}</td>
              <td />
            </tr>
            <tr>
              <th scope="row">{budget.guard}</th>
              <td className="n nowrap">{figure(finding.guardBand)}</td>
              <td />
            </tr>
          </tbody>
        </table>
      </div>
      <p className="note">{ruleWords(finding.rule, budget)}</p>
      {'id' in finding ? (
        <DrawnFinding
          findingId={finding.id}
          name={finding.name}
          limits={limitsDrawn(finding.limits)}
          span={finding.value.type === 'span'}
        />
      ) : (
        <p className="note">{drawnFinding.unkept}</p>
      )}
    </Dialog>
  );
}
