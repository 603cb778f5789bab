import type { Store } from '../page/store.js';
import type { Divergence, KeyChange } from '../session/disk.js';

const SIDES = { base: 'as the two were the same', mine: 'on this page', theirs: 'on disk' } as const;

/** Asks which counts when file and page both changed. Nothing else on the page waits for the answer. */
export function Clash({ store }: { store: Store }) {
  const clash = store.clash.value;
  if (!clash) return null;
  const settle = (choice: 'theirs' | 'mine' | 'both') => {
    store.settle(choice);
    document.getElementById('file-state')?.focus();
  };
  return (
    <section class="clash" role="alert" aria-labelledby="clash-title">
      <h2 id="clash-title">{store.file} changed on disk, and here too</h2>
      <p>
        The picture shows what is on this page. Whatever you choose, undo leads back to the values as they are
        now.
      </p>
      {clash.unreadable.length > 0 && (
        <p>
          No value can be read from the text {clash.unreadable.map((side) => SIDES[side]).join(' and ')}, so
          the two can’t be put together.
        </p>
      )}
      <div class="clash-sides">
        <Side
          title="on disk"
          changes={clash.theirs}
          both={clash.both}
          nothing={nothing(store.disk.value.base !== store.disk.value.text, clash)}
        />
        <Side
          title="here"
          changes={clash.mine}
          both={clash.both}
          nothing={nothing(store.text.value !== store.disk.value.base, clash)}
        />
      </div>
      <div class="clash-buttons">
        <button type="button" id="clash-theirs" onClick={() => settle('theirs')}>
          take the file (my edits stay in undo)
        </button>
        {clash.canJoin && (
          <button type="button" id="clash-both" onClick={() => settle('both')}>
            put my edits on top of the file
          </button>
        )}
        <button type="button" id="clash-mine" onClick={() => settle('mine')}>
          keep mine
        </button>
      </div>
    </section>
  );
}

/** What to say of a side on which no value changed. */
function nothing(isOther: boolean, { unreadable }: Divergence): string {
  if (unreadable.length > 0) return 'not known value by value';
  return isOther ? 'no value, only comments or the way it is written' : 'nothing any more';
}

function Side({
  title,
  changes,
  both,
  nothing,
}: {
  title: string;
  changes: readonly KeyChange[];
  both: readonly string[];
  nothing: string;
}) {
  return (
    <div>
      <h3>changed {title}</h3>
      {changes.length === 0 && <p>{nothing}</p>}
      <ul>
        {changes.map(({ key, from, to }) => (
          <li key={key}>
            <b>{key}</b> {from ?? 'not stated'} <span aria-hidden="true">→</span>
            <span class="unseen"> to </span> {to ?? 'left out'}
            {both.includes(key) && <strong> changed in both</strong>}
          </li>
        ))}
      </ul>
    </div>
  );
}
