interface Named {
  readonly id: string;
  readonly name: string;
}

/** Choices of a select, each by its name. */
export const NamedOptions = ({ of }: { readonly of: readonly Named[] }) =>
  of.map(({ id, name }) => (
    <option key={id} value={id}>
      {name}
    </option>
  ));
