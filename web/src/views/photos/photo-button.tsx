import { useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { PhotoDialog } from './photo-dialog.tsx';
import type { PhotoTarget } from './photos-query.ts';
import './photos.css';

/** A camera in thin lines. */
function CameraSign() {
  return (
    <svg className="camera-sign" viewBox="0 0 24 20" width="24" height="20" aria-hidden="true">
      <path d="M1.5 5.5h5l2-3h7l2 3h5v12h-21z" />
      <circle cx="12" cy="11" r="4" />
    </svg>
  );
}

/** Opens the camera for one thing; what it is stands in the name for those who can't see where the button stands. */
export function PhotoButton({ target, small = false }: { readonly target: PhotoTarget; readonly small?: boolean }) {
  const { photos: words } = useWords();
  const [taking, setTaking] = useState(false);
  const name = target.words === '' ? words.add : words.addOf(target.words);
  return (
    <>
      <Button big aria-label={name} onClick={() => setTaking(true)}>
        <CameraSign />
        {small ? null : words.add}
      </Button>
      {taking ? <PhotoDialog target={target} onClose={() => setTaking(false)} /> : null}
    </>
  );
}
