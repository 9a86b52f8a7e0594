/** Prints what happened, step by step: a numbered heading for each part of the job, and its facts under it. */
let part = 0;

export function heading(text: string): void {
  part += 1;
  console.log(`\n${String(part).padStart(2)}. ${text}`);
}

export const say = (text: string): void => console.log(`    ${text}`);

/** What the server refused, in its own words. */
export const refused = (text: string): void => console.log(`    refused, as it should be: ${text}`);
