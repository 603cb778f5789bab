import { lookUp } from '../../parts/index.js';
import type { Store } from '../page/store.js';
import { fieldId, isQuantity, unitShown, unitsOf } from '../session/fields.js';
import { nudged } from '../session/nudge.js';
import type { EntryProps } from './field.js';

/** Steps that an arrow key goes by. */
const ARROWS: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowDown: -1 };

const BEARINGS = 'bearings-in-stock';

/** Names of bearings for the fields to offer; stands once on the page. */
export function BearingNames() {
  return (
    <datalist id={BEARINGS}>
      {lookUp('bearing').map(({ name }) => (
        <option key={name} value={name} />
      ))}
    </datalist>
  );
}

/** One line that is typed into: a quantity, a text or a name. */
export function TextEntry(props: EntryProps) {
  return (
    <span class="entry">
      <ItemInput {...props} at={0} id={fieldId(props.fullKey)} />
    </span>
  );
}

interface ItemProps extends EntryProps {
  /** Which of the items. */
  readonly at: number;
  readonly id: string;
  readonly name?: string;
}

/** The input for one item, with its unit behind it. What is typed goes into the text, right or wrong. */
export function ItemInput(props: ItemProps) {
  const { store, fullKey, leaf, items, at, id, name, instead, locked, invalid, describedBy } = props;
  const item = items[at] ?? '';
  const units = unitsOf(store.written.value);
  const unit = unitShown(leaf, item || instead || '', units);
  const keyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') {
      store.seal();
      return;
    }
    const by = ARROWS[event.key];
    if (by === undefined || locked || event.altKey || event.ctrlKey || event.metaKey || !isQuantity(leaf))
      return;
    event.preventDefault();
    const next = nudged(item || instead || '', leaf, units, by);
    if (next !== undefined) writeAt(store, fullKey, items, at, next);
  };
  return (
    <span class={`item ${isQuantity(leaf) ? 'number' : 'words'}`}>
      <input
        id={id}
        type="text"
        value={item}
        placeholder={items.length === 0 ? instead : undefined}
        aria-label={name}
        aria-describedby={describedBy}
        aria-invalid={invalid}
        readOnly={locked}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        inputMode="text"
        list={leaf.kind === 'bearing' ? BEARINGS : undefined}
        onInput={({ currentTarget }) => store.type(fullKey, withItem(items, at, currentTarget.value))}
        onKeyDown={keyDown}
        onBlur={() => store.seal()}
      />
      {unit && <span class="unit">{unit}</span>}
    </span>
  );
}

/** One of several words. */
export function ChoiceEntry({
  store,
  fullKey,
  leaf,
  items,
  instead,
  locked,
  invalid,
  describedBy,
}: EntryProps) {
  if (leaf.kind !== 'choice') return null;
  const [item] = items;
  const known = item === undefined || leaf.choices.includes(item);
  return (
    <span class="entry">
      <select
        id={fieldId(fullKey)}
        value={item ?? instead ?? ''}
        disabled={locked}
        aria-describedby={describedBy}
        aria-invalid={invalid}
        class={item === undefined ? 'unstated' : undefined}
        onChange={({ currentTarget }) => writeWhole(store, fullKey, currentTarget.value)}
      >
        {item === undefined && instead === undefined && <option value="">not stated</option>}
        {!known && <option value={item}>{item} (not known)</option>}
        {leaf.choices.map((choice) => (
          <option key={choice} value={choice}>
            {choice}
          </option>
        ))}
      </select>
    </span>
  );
}

export function YesNoEntry({ store, fullKey, items, instead, locked, invalid, describedBy }: EntryProps) {
  const said = (items[0] ?? instead ?? '').toLowerCase();
  return (
    <span class="entry">
      <input
        id={fieldId(fullKey)}
        type="checkbox"
        checked={said === 'true'}
        disabled={locked}
        aria-describedby={describedBy}
        aria-invalid={invalid}
        onChange={({ currentTarget }) => writeWhole(store, fullKey, String(currentTarget.checked))}
      />
      <span class="unit">{said === 'true' ? 'yes' : said === 'false' ? 'no' : said}</span>
    </span>
  );
}

export function withItem(items: readonly string[], at: number, item: string): readonly string[] {
  return items.length === 0 ? [item] : items.with(at, item);
}

/** A step from a key: in the text at once, and undone together with the strokes around it. */
function writeAt(store: Store, key: string, items: readonly string[], at: number, item: string): void {
  store.write(key, withItem(items, at, item), key);
}

function writeWhole(store: Store, key: string, item: string): void {
  store.seal();
  store.write(key, [item]);
  store.seal();
}
