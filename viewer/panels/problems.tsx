import { leavesOf, MACHINE_FILE, type Problem } from '../../parts/index.js';
import type { Store } from '../page/store.js';
import { excerptOf, problemInWords } from '../session/problem-words.js';

const KEYS = leavesOf(MACHINE_FILE).map(([key]) => key);

/** What is wrong with the text, at its lines; empty while nothing is. */
export function Problems({ store }: { store: Store }) {
  const problems = store.problems.value;
  return (
    <div class="problems" role="status" aria-live="polite">
      {problems.length > 0 && (
        <>
          <h2>
            {problems.length === 1 ? 'Something is' : `${problems.length} things are`} wrong in {store.file}
          </h2>
          {store.shown.value && <p>The picture still shows the last machine that was right.</p>}
          {/* A long list is scrolled by keyboard. */}
          <ol tabIndex={problems.length > 3 ? 0 : undefined} aria-label="What is wrong">
            {problems.map((problem) => (
              <li key={`${problem.line}:${problem.column}:${problem.key}:${problem.rule}`}>
                <ProblemItem store={store} problem={problem} />
              </li>
            ))}
          </ol>
        </>
      )}
    </div>
  );
}

function ProblemItem({ store, problem }: { store: Store; problem: Problem }) {
  const { line, caret } = excerptOf(store.text.value, problem);
  const hasField = KEYS.some((key) => key === problem.key || key.startsWith(`${problem.key}.`));
  return (
    <>
      <p>
        <b>line {problem.line}</b> {problemInWords(problem)}
      </p>
      {line.trim() !== '' && (
        <pre aria-hidden="true">
          {line}
          {'\n'}
          {caret}
        </pre>
      )}
      {problem.key !== '' && hasField && (
        <button
          type="button"
          onClick={() => {
            store.wantedField.value = problem.key;
          }}
        >
          go to {problem.key}
        </button>
      )}
    </>
  );
}
