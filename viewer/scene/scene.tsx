import { effect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Store } from '../page/store.js';
import { SceneView } from './scene-view.js';

/** The canvas. It can have the focus: arrows turn the view, plus and minus come nearer and go farther. */
export function Scene({ store, onView }: { store: Store; onView: (view: SceneView | undefined) => void }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!hasWebGl()) {
      store.loseScene('This browser shows no three-dimensional picture (WebGL is off or missing).');
      return undefined;
    }
    const view = new SceneView(host.current!, store);
    onView(view);
    // For tests and benchmarks; nothing on the page depends on it.
    Object.assign(host.current!, { scene: view });
    const end = effect(() => {
      // A card that was lost is not waited for: the section drawing takes over.
      if (store.noScene.value !== undefined) view.stop();
    });
    return () => {
      end();
      onView(undefined);
      view.dispose();
    };
  }, [store]);
  return <div class="canvas" ref={host} />;
}

/** Asked of a canvas of its own, which gives its context back at once. */
function hasWebGl(): boolean {
  const context = document.createElement('canvas').getContext('webgl2');
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return context !== null;
}
