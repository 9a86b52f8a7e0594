import type { Bins } from '#contracts/stores.ts';
import { NamedOptions } from '../../kit/named-options.tsx';

/** Choices of a select, each bin by its code. */
export const BinOptions = ({ of }: { readonly of: readonly Pick<Bins['items'][number], 'id' | 'code'>[] }) => (
  <NamedOptions of={of.map(({ id, code }) => ({ id, name: code }))} />
);
