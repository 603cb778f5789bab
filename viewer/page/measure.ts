import type { RefObject } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';

/** Size of an element in pixels, followed as it changes; 0 by 0 before it is known or while it is not shown. */
export function useSize(element: RefObject<HTMLElement | null>): {
  readonly width: number;
  readonly height: number;
} {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const host = element.current!;
    const take = () =>
      setSize((before) =>
        before.width === host.clientWidth && before.height === host.clientHeight
          ? before
          : { width: host.clientWidth, height: host.clientHeight },
      );
    take();
    const watch = new ResizeObserver(take);
    watch.observe(host);
    return () => watch.disconnect();
  }, [element]);
  return size;
}

/** Whether a media query holds, followed as it changes. */
export function useMedia(query: string): boolean {
  const [holds, setHolds] = useState(() => matchMedia(query).matches);
  useLayoutEffect(() => {
    const list = matchMedia(query);
    const take = () => setHolds(list.matches);
    take();
    list.addEventListener('change', take);
    return () => list.removeEventListener('change', take);
  }, [query]);
  return holds;
}
