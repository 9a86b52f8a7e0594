/** A figure as the server takes it: a decimal comma and a typographic minus made plain. */
export const plain = (text: string): string => text.trim().replace(',', '.').replace('−', '-');

export const quantityOf = (text: string | undefined, unit: string) => ({ value: plain(text ?? ''), unit });

/** A part of a body that is there only when something was typed. */
export const given = <Name extends string>(name: Name, text: string | undefined, unit: string) =>
  (text ?? '').trim() === ''
    ? {}
    : ({ [name]: quantityOf(text, unit) } as Record<Name, { value: string; unit: string }>);

export const blank = (text: string | undefined): boolean => (text ?? '').trim() === '';

/** The lines of a pasted list that aren't empty, each with its place in the field from 1. */
export const linesOf = (
  text: string | undefined,
): readonly { readonly line: number; readonly cells: readonly string[] }[] =>
  (text ?? '').split('\n').flatMap((line, index) => {
    const cells = line.trim().split(/[;\t ]+/);
    return line.trim() === '' ? [] : [{ line: index + 1, cells }];
  });
