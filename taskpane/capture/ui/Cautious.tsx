import { CAUTIONS, LAW } from '../../components/Cautions';

/** The cautions, where measuring starts. */
export function Cautious() {
  return (
    <section class="cautions" aria-labelledby="cautions-title">
      <h2 id="cautions-title">Before you measure</h2>
      <ul>
        {CAUTIONS.map(([lead, rest]) => (
          <li key={lead}>
            <strong>{lead}</strong> {rest}
          </li>
        ))}
      </ul>
      <p>{LAW}</p>
    </section>
  );
}
