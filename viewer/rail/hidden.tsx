import type { ComponentChildren } from 'preact';

/** A part of the rail’s drawing that only repeats for the eye what its items say. */
export function Hidden({ children, className = '' }: { children: ComponentChildren; className?: string }) {
  return (
    <svg class={className} aria-hidden="true" overflow="visible">
      {children}
    </svg>
  );
}
