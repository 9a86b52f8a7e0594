import { useState } from 'react';
import { MOST_PHOTO_BYTES } from '#domain/files/limits.ts';
import { useWords } from '../../words/words.tsx';

/** A file that a phone gives no type for is let through: the server looks inside. */
const mayBe = ({ type }: File): boolean => type === '' || type.startsWith('image/') || type === 'application/pdf';

/** Hands on what may be kept of what a camera or a file dialog gives; says what it would not take. */
export function useGoodFiles(onGood: (files: readonly File[]) => void) {
  const { photos: words } = useWords();
  const [faults, setFaults] = useState<readonly string[]>([]);
  const faultOf = (file: File): string | undefined => {
    if (!mayBe(file)) return words.wrongType(file.name);
    return file.size > MOST_PHOTO_BYTES ? words.tooLarge(file.name, MOST_PHOTO_BYTES / 1_048_576) : undefined;
  };
  const take = (files: readonly File[]) => {
    setFaults(files.flatMap((file) => faultOf(file) ?? []));
    onGood(files.filter((one) => faultOf(one) === undefined));
  };
  return { take, faults };
}
