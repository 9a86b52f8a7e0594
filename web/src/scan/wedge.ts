import { READER_GAP_MS, WedgeReader } from './wedge-reader.ts';

/** So long after a key, what was held back is taken for what it is. */
const REST_MS = READER_GAP_MS + 20;

type Listener = (text: string) => void;

const listeners: Listener[] = [];

/** Hears what readers send, until the returned function is called; whoever came last hears it alone. */
export function listenToReader(listener: Listener): () => void {
  listeners.push(listener);
  return () => {
    const index = listeners.lastIndexOf(listener);
    if (index >= 0) listeners.splice(index, 1);
  };
}

/** What was scanned by whatever means, for whoever hears readers now. */
export function tellScan(text: string): void {
  listeners.at(-1)?.(text);
}

interface HeldKey {
  readonly key: string;
  readonly target: EventTarget | null;
}

/** Our own events: on their way, and not to be held again. */
const released = new WeakSet<Event>();

const isEditable = (target: Element | null): boolean =>
  target instanceof HTMLInputElement ||
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLElement && target.isContentEditable);

/** Gives a held key back as if it had just been pressed: first to whoever listens to keys, then into the field. */
function giveBack({ key, target }: HeldKey): void {
  const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
  released.add(event);
  const goesOn = (target ?? document.body).dispatchEvent(event);
  // The one way to type into whatever field it is so that its undo and its listeners see it.
  if (goesOn && isEditable(document.activeElement)) document.execCommand('insertText', false, key);
}

/**
 * Hears keyboards for readers, before any view does: a view's own listener to keys must not get half a code. Called once,
 * before anything is drawn.
 */
export function startReader(): void {
  const reader = new WedgeReader();
  let keys: HeldKey[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;
  const letGo = () => {
    const back = keys;
    keys = [];
    reader.release();
    for (const key of back) giveBack(key);
  };
  const finish = (text: string) => {
    keys = [];
    tellScan(text);
  };
  const restTimer = () => {
    clearTimeout(timer);
    const dueAt = performance.now() + REST_MS;
    timer = setTimeout(() => {
      // The page itself was busy: the next keys may have come and wait to be heard.
      if (performance.now() - dueAt > REST_MS) return restTimer();
      const heard = reader.rest();
      if (heard.now === 'scan') finish(heard.text);
      else letGo();
    }, REST_MS);
  };
  const listen = (event: KeyboardEvent) => {
    if (released.has(event) || event.isComposing || listeners.length === 0) return;
    // A reader sends capitals with Shift: that key says nothing by itself.
    if (event.key === 'Shift' || event.key === 'CapsLock') return;
    const chord = event.ctrlKey || event.metaKey || event.altKey || event.repeat;
    let heard = chord ? ({ now: 'pass' } as const) : reader.hear(event.key, event.timeStamp);
    if (heard.now === 'pass' && reader.held !== '') {
      letGo();
      if (!chord) heard = reader.hear(event.key, event.timeStamp);
    }
    if (heard.now === 'pass') return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (heard.now === 'scan') {
      clearTimeout(timer);
      finish(heard.text);
    } else {
      keys.push({ key: event.key, target: event.target });
      restTimer();
    }
  };
  addEventListener('keydown', listen, { capture: true });
}
