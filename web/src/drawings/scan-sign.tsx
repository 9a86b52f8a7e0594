import { Drawing } from './drawing.tsx';

/** Four corners around a few modules: something is read here. */
export function ScanSign({ size }: { readonly size: number }) {
  return (
    <Drawing viewBox={[0, 0, 24, 24]} width={size} height={size} className="scan-sign">
      <path d="M2 7V2H7M17 2H22V7M22 17V22H17M7 22H2V17" stroke="currentColor" strokeWidth={2} />
      <path
        d="M7 7H11V11H7ZM13 7H17V9H13ZM15 11H17V15H15ZM7 13H9V17H7ZM11 13H13V15H11ZM11 16H17V17H11Z"
        fill="currentColor"
      />
    </Drawing>
  );
}
