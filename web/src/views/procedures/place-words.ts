import { useWords } from '../../words/words.tsx';

/** Says in words which step and which field a pointer into a procedure means. Steps and lists are counted from 1. */
export function usePlaceWords(): (pointer: string) => string {
  const { procedures: words } = useWords();
  return (pointer) => {
    const [first = '', second, ...rest] = pointer.split('/').slice(1);
    if (first === '') return words.whole;
    const step = first === 'steps' && second !== undefined;
    const parts = step ? rest : [first, ...(second === undefined ? [] : [second]), ...rest];
    const told: string[] = step ? [words.stepAt(Number(second) + 1)] : [];
    for (const part of parts) {
      const list = told.at(-1);
      if (/^\d+$/.test(part) && list !== undefined) told.splice(-1, 1, words.oneOfList(list, Number(part) + 1));
      else told.push(words.fields[part] ?? part);
    }
    return told.join(', ');
  };
}
