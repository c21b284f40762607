// What reads PDF files, in a thread of its own.
import "pdfjs-dist/build/pdf.worker.mjs";
