import type { ProcedureDocument } from '#contracts/procedure-documents.ts';

export type WrittenStep = ProcedureDocument['steps'][number];

export interface StepFormProps {
  readonly step: WrittenStep;
  /** Steps before it: what they ask may be stood on. */
  readonly before: readonly WrittenStep[];
  readonly onChange: (step: WrittenStep) => void;
}
