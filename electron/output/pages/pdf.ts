/** Pages as a PDF: vectors and embedded letters, in true size, and the same bytes whenever and wherever it is made. */

import PDFDocument from 'pdfkit';
import type { Ink, Page, PageLine, PageText } from '../../bridge/page-messages.ts';
import type { Typeface } from './typeface.ts';

const POINTS_PER_MM = 72 / 25.4;

/** Shares of black, for printers that know nothing else. */
const INKS: Readonly<Record<Ink, string>> = { black: '#000000', grey: '#6e6e6e', pale: '#e8e8e8', white: '#ffffff' };

/** No clock: a file that says when it was made differs every time. Part of the file's identity too. */
const MADE = new Date(0);

export async function pdfOf(pages: readonly Page[], title: string, typeface: Typeface): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    // No font of its own: it would read a file that a bundle does not have.
    font: '',
    // Compressed bytes hang on the version of zlib and on the processor.
    compress: false,
    // From 1.7 on a file can ask not to be scaled.
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    info: { Title: title, Creator: 'Evenrun', Producer: 'Evenrun', CreationDate: MADE },
  });
  const bytes = collect(doc);
  askForTrueSize(doc);
  for (const { name, bytes } of [...typeface.files.plain, ...typeface.files.bold])
    doc.registerFont(name, Buffer.from(bytes));
  for (const page of pages) drawPage(doc, page, typeface);
  doc.end();
  return bytes;
}

/** Letters one by one, as the layout has measured them. */
const LETTERS: PDFKit.Mixins.TextOptions = {
  lineBreak: false,
  baseline: 'alphabetic',
  // Features are turned off by name, of which the library's types know nothing.
  features: { kern: false, liga: false, clig: false, calt: false } as unknown as PDFKit.Mixins.OpenTypeFeatures[],
};

type Doc = InstanceType<typeof PDFDocument>;

/** The library writes the preferences of viewers itself when a title is to be shown; this adds to them. */
function askForTrueSize(doc: Doc): void {
  const { _root } = doc as unknown as { _root: { data: { ViewerPreferences: { data: Record<string, unknown> } } } };
  _root.data.ViewerPreferences.data['PrintScaling'] = 'None';
}

function collect(doc: Doc): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const parts: Uint8Array[] = [];
    doc.on('data', (part: Uint8Array) => parts.push(part));
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(parts))));
    doc.on('error', reject);
  });
}

function drawPage(doc: Doc, { widthMm, heightMm, marks }: Page, typeface: Typeface): void {
  doc.addPage({ size: [widthMm * POINTS_PER_MM, heightMm * POINTS_PER_MM], margin: 0 });
  doc.lineJoin('round').lineCap('butt');
  for (const mark of marks) {
    if (mark.kind === 'line') drawLine(doc, mark);
    else drawText(doc, mark, typeface);
  }
}

function drawLine(doc: Doc, { points, isClosed, widthMm, dashMm, ink, fill }: PageLine): void {
  points.forEach(([x, y], at) => {
    if (at === 0) doc.moveTo(x * POINTS_PER_MM, y * POINTS_PER_MM);
    else doc.lineTo(x * POINTS_PER_MM, y * POINTS_PER_MM);
  });
  if (isClosed) doc.closePath();
  if (widthMm === 0) {
    doc.fill(INKS[fill ?? ink]);
    return;
  }
  doc.lineWidth(widthMm * POINTS_PER_MM);
  if (dashMm === 0) doc.undash();
  else doc.dash(dashMm * POINTS_PER_MM, { space: dashMm * POINTS_PER_MM });
  if (fill === null) doc.stroke(INKS[ink]);
  else doc.fillAndStroke(INKS[fill], INKS[ink]);
}

function drawText(doc: Doc, mark: PageText, typeface: Typeface): void {
  const { text, at, align, sizeMm, isBold, isTurned, ink } = mark;
  const widthMm = typeface.widthMm(text, { sizeMm, isBold });
  const backMm = align === 'start' ? 0 : align === 'end' ? widthMm : widthMm / 2;
  const [x, y] = [at[0] * POINTS_PER_MM, at[1] * POINTS_PER_MM];
  doc.save();
  if (isTurned) doc.rotate(90, { origin: [x, y] });
  let along = x - backMm * POINTS_PER_MM;
  doc.fillColor(INKS[ink]).fontSize(sizeMm * POINTS_PER_MM);
  for (const run of typeface.runs(text, isBold)) {
    doc.font(run.font).text(run.text, along, y, LETTERS);
    along += typeface.widthMm(run.text, { sizeMm, isBold }) * POINTS_PER_MM;
  }
  doc.restore();
}
