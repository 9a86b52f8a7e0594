export type PutInKind = 'rag' | 'plug' | 'tool' | 'other';

/** What a procedure has put in, by its name: "Rag", "Clean cloth", "Plug", "Piston stop". Anything else is a tool. */
export function putInKindOf(name: string): PutInKind {
  if (/\b(rag|cloth|towel)/i.test(name)) return 'rag';
  if (/\b(plug|cap|bung)/i.test(name)) return 'plug';
  return 'tool';
}
