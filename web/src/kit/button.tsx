import type { ComponentProps } from 'react';

export type ButtonKind = 'plain' | 'main' | 'held';

export type ButtonProps = Omit<ComponentProps<'button'>, 'className'> & {
  /** `main` for the one next act, `held` for acts on what is reserved or promised. */
  readonly kind?: ButtonKind;
  /** 64 px high, for gloved hands. */
  readonly big?: boolean;
};

export const buttonClass = (kind: ButtonKind = 'plain', big = false): string =>
  ['btn', ...(kind === 'plain' ? [] : [kind]), ...(big ? ['big'] : [])].join(' ');

export function Button({ kind = 'plain', big = false, type = 'button', ...rest }: ButtonProps) {
  return <button type={type} className={buttonClass(kind, big)} {...rest} />;
}
