import type { ComponentChildren } from 'preact';
import type { RailItem } from './items.js';
import type { Rail } from './rail.js';

/** Something on the rail that can be pressed: the rail is one stop of the tab key, arrows lead on from there. */
export function Option({
  rail,
  item,
  chosen,
  className,
  children,
  onPointerEnter,
  onPointerLeave,
}: {
  rail: Rail;
  item: RailItem;
  chosen: boolean;
  className: string;
  children: ComponentChildren;
  onPointerEnter?: () => void;
  onPointerLeave?: () => void;
}) {
  return (
    <g
      role="option"
      id={domId(item)}
      data-item={item.id}
      class={`${className}${chosen ? ' chosen' : ''}`}
      aria-selected={chosen}
      aria-label={item.name}
      // In small letters: an attribute of a drawing is not found in any other spelling.
      tabindex={rail.active === item.id ? 0 : -1}
      onClick={() => rail.choose(item)}
      onFocus={({ currentTarget }) => rail.focus(item, currentTarget.matches(':focus-visible'))}
      onBlur={() => rail.blur()}
      onPointerEnter={() => {
        rail.tell(item);
        onPointerEnter?.();
      }}
      onPointerLeave={() => {
        rail.tell(undefined);
        onPointerLeave?.();
      }}
    >
      {children}
    </g>
  );
}

const domId = ({ id }: RailItem) => `rail-${id.replace(/[^\w-]/g, '-')}`;
