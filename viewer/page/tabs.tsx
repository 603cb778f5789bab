import type { Signal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import type { SheetPage } from './sheet.js';
import type { Store } from './store.js';

/** The pages of the sheet, one at a time; the others keep what was typed into them. */
export function Tabs({
  store,
  pages,
  page,
}: {
  store: Store;
  pages: readonly SheetPage[];
  page: Signal<string>;
}) {
  const list = useRef<HTMLDivElement>(null);
  const key = (event: KeyboardEvent) => {
    const now = pages.findIndex(({ id }) => id === page.value);
    const to = {
      ArrowLeft: now - 1,
      ArrowRight: now + 1,
      Home: 0,
      End: pages.length - 1,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    const next = pages[(to + pages.length) % pages.length]!;
    page.value = next.id;
    list.current?.querySelector<HTMLElement>(`#tab-${next.id}`)?.focus();
  };
  return (
    <>
      <div class="tabs" role="tablist" aria-label="Pages" ref={list} onKeyDown={key}>
        {pages.map(({ id, title, state }) => (
          <button
            key={id}
            type="button"
            role="tab"
            id={`tab-${id}`}
            aria-controls={`page-${id}`}
            aria-selected={page.value === id}
            tabIndex={page.value === id ? 0 : -1}
            onClick={() => {
              page.value = id;
            }}
          >
            <b>{title}</b> <State store={store} state={state} />
          </button>
        ))}
      </div>
      {pages.map(({ id, component: Page }) => (
        <div
          key={id}
          class="page"
          role="tabpanel"
          id={`page-${id}`}
          aria-labelledby={`tab-${id}`}
          hidden={page.value !== id}
        >
          <Page store={store} />
        </div>
      ))}
    </>
  );
}

/** By itself, so that an edit that changes these words draws no page anew. */
function State({ store, state }: { store: Store; state: SheetPage['state'] }) {
  return <span>{state(store)}</span>;
}
