import { useEffect } from 'preact/hooks';
import type { Store } from '../page/store.js';

/** What a key press asks for: Ctrl or Cmd with Z, with Shift+Z, and Ctrl+Y. */
export function undoKey({
  key,
  ctrlKey,
  metaKey,
  shiftKey,
  altKey,
}: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>): 'undo' | 'redo' | undefined {
  if (altKey || ctrlKey === metaKey) return undefined;
  const letter = key.toLowerCase();
  if (letter === 'z') return shiftKey ? 'redo' : 'undo';
  return letter === 'y' && ctrlKey && !shiftKey ? 'redo' : undefined;
}

/** Undo and redo by key, anywhere on the page: a field’s own undo would know nothing of the machine. */
export function useUndoKeys(store: Store): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const asked = undoKey(event);
      // Behind a question that has to be answered first, nothing changes.
      if (!asked || document.querySelector('dialog:modal')) return;
      event.preventDefault();
      store[asked]();
    };
    window.addEventListener('keydown', press, { capture: true });
    return () => window.removeEventListener('keydown', press, { capture: true });
  }, [store]);
}
