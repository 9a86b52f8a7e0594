import type { ReactNode } from 'react';

export type BannerProps = {
  /** `notlive`: what is seen is old. `offline`: entries are kept here and will be sent. */
  readonly kind: 'notlive' | 'offline';
  readonly children: ReactNode;
};

export function Banner({ kind, children }: BannerProps) {
  return (
    <div className={kind === 'notlive' ? 'banner notlive' : 'banner'} role="status">
      <span>{children}</span>
    </div>
  );
}
