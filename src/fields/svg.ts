import { hex, type Mark, type Size } from './mark';

/** A field as an SVG file, one unit a pixel. Shown at another size it keeps hard edges but not whole pixels. */
export function svgOf({ width, height }: Size, marks: readonly Mark[], title: string): string {
  const rects = marks.map(
    ({ x, y, width: w, height: h, colour }) =>
      `<rect x="${x}" y="${y}" width="${w}" height="${h}" fill="${hex(colour)}"/>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" shape-rendering="crispEdges">`,
    `<title>${title.replace(/[&<]/g, (sign) => (sign === '&' ? '&amp;' : '&lt;'))}</title>`,
    ...rects,
    '</svg>',
    '',
  ].join('\n');
}
