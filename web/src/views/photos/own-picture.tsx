import { useEffect, useState } from 'react';

/** A picture of this terminal, before the server has it. */
export function OwnPicture({ file }: { readonly file: Blob }) {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    if (!file.type.startsWith('image/')) return;
    const made = URL.createObjectURL(file);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [file]);
  return address === null ? <span className="photo-paper">PDF</span> : <img src={address} alt="" />;
}
