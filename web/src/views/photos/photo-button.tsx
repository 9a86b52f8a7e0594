import { useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { CameraSign } from './camera-sign.tsx';
import { PhotoDialog } from './photo-dialog.tsx';
import type { PhotoTarget } from './photos-query.ts';
import './photos.css';

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
