import { CODE_PREFIX, kindLetters, readCode } from '#domain/labels/code.ts';

/** A reader sends its keys this close together; people who type do not, three keys in a row. */
export const READER_GAP_MS = 90;

const SHORTEST = 10;
const LONGEST = 30;

/** What a key pressed turns out to be. */
export type Heard =
  /** Not a reader's: what was held back goes on its way, and this key after it. */
  | { readonly now: 'pass' }
  /** Perhaps a reader's: held back until that is known. */
  | { readonly now: 'hold' }
  | { readonly now: 'scan'; readonly text: string };

/** So far it is how a code begins. */
function mayBeCode(text: string): boolean {
  const typed = text.toUpperCase();
  const head = typed.slice(0, CODE_PREFIX.length);
  const kind = typed.charAt(CODE_PREFIX.length);
  return (
    CODE_PREFIX.startsWith(head) &&
    (kind === '' || kindLetters.has(kind)) &&
    /^[0-9A-Z]+$/.test(typed) &&
    typed.length <= LONGEST
  );
}

/**
 * Tells a reader that types from a person who types: by how a code begins, and by its speed. Until it is told, keys are
 * held back; a person's go on their way at once when the next one is late or no code's.
 */
export class WedgeReader {
  #held = '';
  #at = 0;

  get held(): string {
    return this.#held;
  }

  /** A key that writes one letter, or ends (Enter, Tab); `at` in ms. */
  hear(key: string, at: number): Heard {
    const late = this.#held !== '' && at - this.#at > READER_GAP_MS;
    if (late) return { now: 'pass' };
    this.#at = at;
    if (key === 'Enter' || key === 'Tab') {
      if (this.#held.length < SHORTEST) return { now: 'pass' };
      return { now: 'scan', text: this.#take() };
    }
    if (key.length !== 1 || !mayBeCode(this.#held + key)) return { now: 'pass' };
    this.#held += key;
    return { now: 'hold' };
  }

  /** The next key did not come: a reader that ends with no key sent a whole code, or it was somebody who types. */
  rest(): Heard {
    return readCode(this.#held).ok ? { now: 'scan', text: this.#take() } : { now: 'pass' };
  }

  /** Lets go of what was held. */
  release(): string {
    return this.#take();
  }

  #take(): string {
    const text = this.#held;
    this.#held = '';
    return text;
  }
}
