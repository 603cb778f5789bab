import { number, type Prediction, type Quantity } from '../../parts/index.js';

type Sparks = Prediction['sparks'][number];

/** How long sparks to a ball and to a hand are, for either sign of the terminal, folded away. */
export function SparksTable({ sparks }: { sparks: readonly Sparks[] }) {
  return (
    <details class="more sparks">
      <summary>sparks to ball and hand, either sign</summary>
      <p class="small">
        mm: low, likely, high. Slowly brought near, its corona takes charge off first; 0 is no spark at all.
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">to</th>
            <th scope="col">terminal</th>
            <th scope="col">sudden</th>
            <th scope="col">slow</th>
          </tr>
        </thead>
        <tbody>
          {sparks.map(({ to, diameter, terminal, sudden, slow }) => (
            <tr key={`${to} ${terminal}`}>
              <th scope="row">
                {to}, {number(diameter)} mm
              </th>
              <td>{terminal}</td>
              <Length quantity={sudden} />
              <Length quantity={slow} />
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

function Length({ quantity: { low, likely, high, dominated_by } }: { quantity: Quantity }) {
  return (
    <td title={`depends most on: ${dominated_by}`}>
      {number(low)} <b class="likely">{number(likely)}</b> {number(high)}
    </td>
  );
}
