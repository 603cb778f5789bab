import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Store } from '../page/store.js';
import { fragmentOf } from '../session/link.js';

/** A link that carries the values as they are now; put into the clipboard where the browser lets it. */
export function LinkField({ store }: { store: Store }) {
  const field = useRef<HTMLInputElement>(null);
  const said = useSignal('');
  const link = `${location.href.split('#')[0]}${fragmentOf(store.text.value)}`;
  const copy = async () => {
    field.current?.select();
    said.value = (await inClipboard(link)) ? 'It is in the clipboard.' : 'Copy it from the field.';
  };
  useEffect(() => {
    void copy();
  }, []);
  return (
    <div class="link-field">
      <label for="link-text">link with these values</label>
      <input id="link-text" ref={field} type="text" readOnly value={link} />
      <button type="button" id="link-copy" onClick={() => void copy()}>
        copy
      </button>
      <p role="status">{said.value}</p>
      {store.served && (
        <p>
          It opens only on this computer and while the program runs. What follows the # works behind the
          address of any page made with <code>view --export</code>.
        </p>
      )}
    </div>
  );
}

async function inClipboard(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
