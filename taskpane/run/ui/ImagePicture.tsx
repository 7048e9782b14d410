import look from '../../components/look.module.css';
import type { Picture } from '../../setup/picture';
import own from './ImagePicture.module.css';

/** Drawing width in its own units; text sizes are chosen for it. */
const WIDE = 280;
const MARGIN = 6;

/** The image to scale with its measuring points, and where to put the tape marks. */
export function ImagePicture({
  picture,
}: {
  readonly picture: Picture | { readonly problem: string } | undefined;
}) {
  if (picture === undefined)
    return <p class={`${own.picture} ${own.empty}`}>The image is drawn here once its size is known.</p>;
  if ('problem' in picture) {
    return (
      <p class={`${own.picture} ${look.error}`} role="status">
        {picture.problem}
      </p>
    );
  }
  const { width, height, area, points, remark } = picture;
  // A very tall or flat image is still drawn, but not taller than the pane.
  const scale = Math.min((WIDE - 2 * MARGIN) / width, 200 / height);
  const [w, h] = [width * scale, height * scale];
  const left = (WIDE - w) / 2;
  return (
    <figure class={own.picture}>
      <figcaption>
        {width.toFixed(3)} × {height.toFixed(3)} m, {area.toFixed(3)} m²
      </figcaption>
      <svg viewBox={`0 0 ${WIDE} ${h + 2 * MARGIN}`} aria-hidden="true">
        <rect class={own.frame} x={left} y={MARGIN} width={w} height={h} />
        {points.map(({ number, u, v }) => (
          <g key={number}>
            <circle class={own.point} cx={left + u * w} cy={MARGIN + v * h} r="3" />
            {number <= 9 && (
              <text class={own.number} x={left + u * w + 6} y={MARGIN + v * h + 4} font-size="11">
                {number}
              </text>
            )}
          </g>
        ))}
      </svg>
      {remark && <p class={look.error}>{remark}</p>}
      <details class={own.marks}>
        <summary tabIndex={0}>Where to put the marks</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">Point</th>
              <th scope="col">from left</th>
              <th scope="col">from top</th>
            </tr>
          </thead>
          <tbody>
            {points.map(({ number, name, leftCm, topCm }) => (
              <tr key={number}>
                <th scope="row">
                  {number} {name}
                </th>
                <td>{leftCm.toFixed(1)} cm</td>
                <td>{topCm.toFixed(1)} cm</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  );
}
