import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { ScanSign } from '../drawings/scan-sign.tsx';
import { useWords } from '../words/words.tsx';
import { ScanDialog } from './scan-dialog.tsx';
import { tellScan } from './wedge.ts';
import './scan.css';

interface ScanButtonProps {
  /** At the sign-in there is nowhere else to go. */
  readonly bare?: boolean;
}

/** Scans with the camera, or types what is printed; a reader needs no button. */
export function ScanButton({ bare = false }: ScanButtonProps) {
  const { scan: words } = useWords();
  const [open, setOpen] = useState(false);
  return (
    <>
      <button
        type="button"
        className="scan-open"
        aria-label={words.title}
        title={words.title}
        onClick={() => setOpen(true)}
      >
        <ScanSign size={24} />
      </button>
      {open ? (
        <ScanDialog
          onClose={() => setOpen(false)}
          links={
            bare ? null : (
              <Link className="btn big" to="/labels" onClick={() => setOpen(false)}>
                {words.toLabels}
              </Link>
            )
          }
          onScan={(text) => {
            setOpen(false);
            tellScan(text);
          }}
        />
      ) : null}
    </>
  );
}
