/** What a bay is for. By itself, so that a form can offer them without all the schemas. */
export const bayKinds = [
  'strip',
  'wash',
  'measuring',
  'head bench',
  'machining',
  'assembly',
  'run-up',
  'rack',
] as const;
