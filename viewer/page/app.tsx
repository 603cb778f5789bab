import { useState } from 'preact/hooks';
import { SectionDrawing } from '../drawing/section-drawing.js';
import { HeightRail } from '../rail/rail.js';
import { Scene } from '../scene/scene.js';
import type { SceneView } from '../scene/scene-view.js';
import { ChosenStrip } from './chosen-strip.js';
import { Dock } from './dock.js';
import { shapeVariables } from './severity.js';
import { Sheet } from './sheet.js';
import { Status } from './status.js';
import type { Store } from './store.js';

const SHAPES = shapeVariables();

export function App({ store }: { store: Store }) {
  const [view, setView] = useState<SceneView | undefined>(undefined);
  const drawn = store.drawing.value === 'section' || store.noScene.value !== undefined;
  return (
    <main style={SHAPES}>
      <section class={`stage${store.measuring.value ? ' measuring' : ''}`} aria-label="Machine">
        {store.noScene.value !== undefined && (
          <p class="no-scene">{store.noScene.value} This is a section of the machine instead.</p>
        )}
        <div class={`picture${drawn ? ' drawn' : ''}`}>
          <HeightRail store={store} />
          <Scene store={store} onView={setView} />
          {drawn && <SectionDrawing store={store} />}
          <NoMachine store={store} />
          <ChosenStrip store={store} />
          <Status store={store} />
        </div>
        <Dock store={store} view={view} />
      </section>
      <Sheet store={store} />
    </main>
  );
}

/** Instead of a machine: why there is none to be seen. */
function NoMachine({ store }: { store: Store }) {
  if (store.shown.value) return null;
  const count = store.problems.value.length;
  return (
    <p class="no-machine">
      {count > 0
        ? `No machine to show yet: ${count === 1 ? 'something is' : `${count} things are`} wrong in ${store.file}.`
        : `Reading ${store.file}.`}
    </p>
  );
}
