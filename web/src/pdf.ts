import { GlobalWorkerOptions, getDocument } from "pdfjs-dist";

// A script of its own, fetched when somebody brings a PDF file and not before.

/** One page of a PDF file as a picture, and how many pages there are. */
export interface PageOfPDF {
  picture: Blob;
  pages: number;
}

/** Pixels along the longer side of the picture made: fine enough for a plan on A1. */
const longest = 4000;

/** Draws a page (the first is 1) of a PDF file. The error says in plain words what is wrong with the file. */
export async function drawPage(file: ArrayBuffer, page: number): Promise<PageOfPDF> {
  GlobalWorkerOptions.workerSrc = "/pdfworker.js";
  const loading = getDocument({
    data: file,
    useWasm: false,
    wasmUrl: "/pdf/",
    useSystemFonts: true,
    enableXfa: false,
    stopAtErrors: false,
  });
  try {
    const doc = await loading.promise;
    if (page < 1 || page > doc.numPages) throw new Error(`The file has ${doc.numPages} pages.`);
    const sheet = await doc.getPage(page);
    const plain = sheet.getViewport({ scale: 1 });
    const viewport = sheet.getViewport({ scale: longest / Math.max(plain.width, plain.height) });
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(viewport.width);
    canvas.height = Math.round(viewport.height);
    await sheet.render({ canvas, viewport, background: "white" }).promise;
    const picture = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
    if (!picture) throw new Error("The browser could not make a picture of the page.");
    return { picture, pages: doc.numPages };
  } finally {
    await loading.destroy();
  }
}
