import { render, type VNode } from 'preact';
import type { SavedFile } from '../saving/saving';
import tokens from '../tokens.css?inline';
import marks from './marks.module.css?inline';

/** Pixels of a saved picture for one unit of its drawing: sharp in print at the width of a column. */
const SCALE = 4;

/**
 * A picture as a file that stands by itself: rules and light colours are in it, whatever the pane looks like.
 * @param picture as it stands in the pane, or as it is to be drawn
 * @returns words, if this program cannot make it
 */
export async function fileOf(
  title: string,
  kind: 'svg' | 'png',
  picture: SVGSVGElement | VNode,
): Promise<SavedFile | string> {
  const { text, width, height } = standalone(title, picture);
  const name = `${title.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '')}.${kind}`;
  if (kind === 'svg') return { name, type: 'image/svg+xml', text };
  const contents = await pixels(text, width * SCALE, height * SCALE);
  if (!contents) return 'This program makes no PNG of it. Save it as SVG.';
  return {
    name,
    type: 'image/png',
    contents,
    otherwise: 'Save it as SVG, whose text can be copied, or take a picture of the screen.',
  };
}

/** One text that any program reads: no style sheet beside it, no variable in it. */
function standalone(title: string, picture: SVGSVGElement | VNode) {
  const svg = picture instanceof SVGElement ? (picture.cloneNode(true) as SVGSVGElement) : drawn(picture);
  const [, , width, height] = (svg.getAttribute('viewBox') ?? '0 0 300 100').split(' ').map(Number);
  svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  svg.setAttribute('width', String(width));
  svg.setAttribute('height', String(height));
  const within = (name: string) => svg.ownerDocument.createElementNS('http://www.w3.org/2000/svg', name);
  const [heading, style, paper] = [within('title'), within('style'), within('rect')];
  heading.textContent = title;
  style.textContent = `svg{font-family:Calibri,Carlito,sans-serif}${inLight(marks)}`;
  for (const [key, value] of Object.entries({ width: '100%', height: '100%', fill: '#ffffff' }))
    paper.setAttribute(key, value);
  svg.prepend(heading, style, paper);
  return { text: new XMLSerializer().serializeToString(svg), width: width!, height: height! };
}

function drawn(picture: VNode): SVGSVGElement {
  const place = document.createElement('div');
  render(picture, place);
  return place.querySelector('svg')!;
}

/** Rules without those for a screen, which come last; variables have the values of the light scheme, which is stated first. */
function inLight(css: string): string {
  const light = tokens.slice(0, tokens.indexOf('}'));
  return css.replace(/@media.*$/s, '').replace(/var\(--([a-z-]+)\)/g, (whole, name: string) => {
    const value = new RegExp(`--${name}:\\s*([^;}]+)`).exec(light)?.[1];
    return value?.trim() ?? whole;
  });
}

async function pixels(svg: string, width: number, height: number): Promise<Blob | undefined> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  try {
    await image.decode();
  } catch {
    return undefined;
  }
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [width, height];
  const context = canvas.getContext('2d');
  if (!context) return undefined;
  context.drawImage(image, 0, 0, width, height);
  return (await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'))) ?? undefined;
}
