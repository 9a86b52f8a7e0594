import { createContext, type ReactNode, useContext } from 'react';
import { en } from './en/index.ts';

/** The message catalogue: every text on screen comes from here. A language is a module of the same shape. */
export type Words = typeof en;

const WordsContext = createContext<Words>(en);

export function WordsProvider({ words, children }: { words: Words; children: ReactNode }) {
  return <WordsContext value={words}>{children}</WordsContext>;
}

export const useWords = (): Words => useContext(WordsContext);
