/** Pages into a PDF: vectors and embedded type, nothing else. */
import PDFDocument from 'pdfkit';
import type { Ink, Item, Page, PathItem, Point, TextItem, WindowItem } from './page.ts';
import { FEATURES, PT_PER_MM, registerFonts, stretchesOf } from './typeface.ts';

const INKS: Readonly<Record<Ink, string>> = { black: '#000000', grey: '#555555', pale: '#d4d4d4', white: '#ffffff' };
/** The same plan gives the same file, byte for byte. */
const NO_DATE = new Date(0);

/** Settles with the bytes of the file. */
export function toPdf(pages: readonly Page[], title: string): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    pdfVersion: '1.7',
    info: { Title: title, Creator: 'By the Mark', CreationDate: NO_DATE, ModDate: NO_DATE },
  });
  registerFonts(doc);
  const parts: Buffer[] = [];
  const done = new Promise<Uint8Array>((resolve, reject) => {
    doc.on('data', (part: Buffer) => parts.push(part));
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(parts))));
    doc.on('error', reject);
  });
  for (const page of pages) drawPage(doc, page);
  doc.end();
  return done;
}

function drawPage(doc: PDFKit.PDFDocument, { widthMm, heightMm, isTurned, items }: Page): void {
  const [width, height] = [widthMm * PT_PER_MM, heightMm * PT_PER_MM];
  doc.addPage({ size: isTurned ? [height, width] : [width, height], margin: 0 });
  doc.save();
  // Turned, what begins at the left comes out of the printer first.
  if (isTurned) doc.transform(0, 1, -1, 0, height, 0);
  doc.scale(PT_PER_MM);
  for (const item of items) drawItem(doc, item);
  doc.restore();
}

function drawItem(doc: PDFKit.PDFDocument, item: Item): void {
  if (item.kind === 'text') drawText(doc, item);
  else if (item.kind === 'path') drawPath(doc, item);
  else drawWindow(doc, item);
}

function drawWindow(doc: PDFKit.PDFDocument, { byMm, fromMm, toMm, items }: WindowItem): void {
  doc.save();
  doc.translate(...byMm);
  doc.rect(...fromMm, toMm[0] - fromMm[0], toMm[1] - fromMm[1]).clip();
  for (const item of items) drawItem(doc, item);
  doc.restore();
}

function drawText(doc: PDFKit.PDFDocument, { text, xMm, baseMm, sizeMm, face, ink, isUpright }: TextItem): void {
  doc.save();
  doc.translate(xMm, baseMm);
  if (isUpright) doc.rotate(-90);
  doc.fillColor(INKS[ink]);
  let alongMm = 0;
  for (const { font, text: part } of stretchesOf(text, face)) {
    doc.font(font).fontSize(sizeMm);
    const options = { features: [...FEATURES], lineBreak: false, baseline: 'alphabetic' as const };
    doc.text(part, alongMm, 0, options);
    alongMm += doc.widthOfString(part, options);
  }
  doc.restore();
}

/**
 * A line along or across the page is filled as the narrow area that it is: a stroke would be moved to the printer's next dot,
 * by up to half a dot, and every join of a strip would add to it.
 */
function asAreas({ lines, isClosed, fill, stroke }: PathItem): PathItem | undefined {
  const [first = [], ...more] = lines;
  const [[x0, y0] = ZERO, [x1, y1] = ZERO] = first;
  const isAlong = y0 === y1;
  const isOne = more.length === 0 && first.length === 2 && !isClosed && fill === undefined;
  if (stroke === undefined || !isOne || (!isAlong && x0 !== x1)) return undefined;
  const half = stroke.widthMm / 2;
  const [from, to] = isAlong ? [Math.min(x0, x1), Math.max(x0, x1)] : [Math.min(y0, y1), Math.max(y0, y1)];
  const [dash, gap] = stroke.dashMm ?? [to - from, 1];
  const areas: Point[][] = [];
  for (let at = from; at < to; at += dash + gap) {
    const end = Math.min(to, at + dash);
    const [left, top, right, foot] = isAlong ? [at, y0 - half, end, y0 + half] : [x0 - half, at, x0 + half, end];
    areas.push([
      [left, top],
      [right, top],
      [right, foot],
      [left, foot],
    ]);
  }
  return { kind: 'path', lines: areas, isClosed: true, fill: stroke.ink };
}
const ZERO: Point = [0, 0];

function drawPath(doc: PDFKit.PDFDocument, item: PathItem): void {
  const { lines, isClosed, fill, stroke } = asAreas(item) ?? item;
  for (const line of lines) {
    for (const [index, [x, y]] of line.entries()) {
      if (index === 0) doc.moveTo(x, y);
      else doc.lineTo(x, y);
    }
    if (isClosed) doc.closePath();
  }
  if (stroke !== undefined) {
    doc.lineWidth(stroke.widthMm).strokeColor(INKS[stroke.ink]).lineJoin('miter').lineCap('butt');
    if (stroke.dashMm === undefined) doc.undash();
    else doc.dash(stroke.dashMm[0], { space: stroke.dashMm[1] });
  }
  if (fill !== undefined && stroke !== undefined) doc.fillAndStroke(INKS[fill], INKS[stroke.ink]);
  else if (fill !== undefined) doc.fill(INKS[fill]);
  else if (stroke !== undefined) doc.stroke();
}
