import { useLayoutEffect, useRef } from 'preact/hooks';
import { fieldId, isQuantity, labelOf, unitsOf } from '../session/fields.js';
import { shifted, stepOf, summaryOf } from '../session/nudge.js';
import { ItemInput } from './entries.js';
import type { EntryProps } from './field.js';

/** Several readings of one dimension: each has its own input, and all can be shifted together. */
export function ReadingsEntry(props: EntryProps) {
  const { store, fullKey, leaf, items, locked } = props;
  const root = useRef<HTMLDivElement>(null);
  /** The reading to be focused once it is there, from 0. */
  const next = useRef<number | undefined>(undefined);
  useLayoutEffect(() => {
    if (next.current === undefined) return;
    root.current?.querySelectorAll<HTMLElement>('.item input')[next.current]?.focus();
    next.current = undefined;
  });
  if (!isQuantity(leaf)) return null;

  const id = fieldId(fullKey);
  const label = labelOf(fullKey);
  const units = unitsOf(store.written.value);
  const shown = items.length === 0 ? [''] : items;
  const summary = items.length > 1 ? summaryOf(items, leaf, units) : undefined;
  const step = stepOf(items[0] ?? '', leaf, units);
  const remove = (at: number) => {
    next.current = Math.max(0, at - 1);
    store.seal();
    store.write(fullKey, items.toSpliced(at, 1));
    store.seal();
  };
  const shift = (by: number) => {
    const moved = shifted(items, leaf, units, by);
    if (moved) store.write(fullKey, moved, `shift ${fullKey}`);
  };
  return (
    <div class="entry readings" ref={root}>
      {shown.map((_, at) => (
        <span class="reading" key={at}>
          <ItemInput {...props} at={at} id={fieldId(fullKey, at + 1)} name={`${label}, reading ${at + 1}`} />
          {items.length > 1 && (
            <button
              type="button"
              class="remove"
              id={`remove-${id}-${at + 1}`}
              aria-label={`remove reading ${at + 1} of ${label}`}
              disabled={locked}
              onClick={() => remove(at)}
            >
              ×
            </button>
          )}
        </span>
      ))}
      <span class="all">
        <button
          type="button"
          id={`add-${id}`}
          aria-label={`add a reading of ${label}`}
          disabled={locked || items.length === 0 || items.at(-1) === ''}
          onClick={() => {
            next.current = items.length;
            store.showDraft(fullKey, [...items, '']);
          }}
        >
          add
        </button>
        {[-1, 1].map((by) => (
          <button
            key={by}
            type="button"
            id={`${by < 0 ? 'less' : 'more'}-${id}`}
            aria-label={`${label}: all readings ${by < 0 ? 'less' : 'more'} by ${step ? `${step.amount} ${step.unit}` : 'a step'}`}
            disabled={locked || !shifted(items, leaf, units, by)}
            onClick={() => shift(by)}
            onBlur={() => store.seal()}
          >
            {by < 0 ? '−' : '+'} {step?.amount ?? ''}
          </button>
        ))}
      </span>
      {summary && (
        <output class="summary" id={`summary-${id}`} for={`${id}-1`}>
          mean {summary.mean}, spread {summary.spread} {summary.unit}
        </output>
      )}
    </div>
  );
}
