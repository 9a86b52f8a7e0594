import { createContext, type ReactNode, useContext } from 'react';
import { RefusedError } from '../../app/api.ts';

type Fault = { readonly pointer: string; readonly detail: string };
interface Scope {
  /** Pointer of what is being changed, in the document that was sent. */
  readonly base: string;
  readonly faults: readonly Fault[];
}
const Scope = createContext<Scope>({ base: '', faults: [] });

export const faultsIn = (error: Error | null): readonly Fault[] =>
  error instanceof RefusedError ? (error.problem.errors ?? []) : [];

interface Props {
  readonly error: Error | null;
  readonly base: string;
  readonly children: ReactNode;
}

/** What was wrong with what was sent, for the fields within to tell each its own. */
export function FaultScope({ error, base, children }: Props) {
  return <Scope value={{ base, faults: faultsIn(error) }}>{children}</Scope>;
}

const words = (faults: readonly Fault[]): string | undefined =>
  faults.length === 0 ? undefined : faults.map(({ detail }) => detail).join(' ');

/** What is wrong with the field at this place of the scope, and with anything in it. */
export function useFault(at: string | undefined): string | undefined {
  const { base, faults } = useContext(Scope);
  if (at === undefined) return undefined;
  const pointer = `${base}${at}`;
  return words(faults.filter((fault) => fault.pointer === pointer || fault.pointer.startsWith(`${pointer}/`)));
}

/** What is wrong with a group as a whole. */
export function FaultAt({ at }: { readonly at: string }) {
  const { base, faults } = useContext(Scope);
  const text = words(faults.filter(({ pointer }) => pointer === `${base}${at}`));
  return text === undefined ? null : (
    <p className="field-error" role="alert">
      {text}
    </p>
  );
}
