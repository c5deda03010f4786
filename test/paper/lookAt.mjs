// node test/paper/lookAt.mjs FILE.pdf [DOTS_PER_INCH]: writes each page beside it as a picture, FILE-1.png and so on.
import { readFileSync, writeFileSync } from 'node:fs';
import * as mupdf from 'mupdf';

const [file = '', dotsPerInch = '70'] = process.argv.slice(2);
const document = mupdf.Document.openDocument(readFileSync(file), 'application/pdf');
const scale = mupdf.Matrix.scale(Number(dotsPerInch) / 72, Number(dotsPerInch) / 72);
for (let index = 0; index < document.countPages(); index += 1) {
  const picture = `${file.replace(/\.pdf$/, '')}-${index + 1}.png`;
  writeFileSync(picture, document.loadPage(index).toPixmap(scale, mupdf.ColorSpace.DeviceRGB, false).asPNG());
  console.log(picture);
}
