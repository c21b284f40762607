import { get, send } from "../../api/client.ts";
import type { Pictures } from "../../api/types.gen.ts";
import { jobPath } from "../../state/address.ts";
import { buildingWords } from "../../words/building.ts";

const words = buildingWords.picture;

// A picture or a PDF page on its way from the person's disk to the job's pictures.

export type FileKind = "image/png" | "image/jpeg" | "image/webp" | "application/pdf";

const text = (b: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...b.subarray(from, to));

/** What a file is by its first bytes, not by its name; "" where it is none of what can be used. */
export function fileKind(head: Uint8Array): FileKind | "" {
  if (text(head, 0, 8) === "\x89PNG\r\n\x1a\n") return "image/png";
  if (head[0] === 0xff && head[1] === 0xd8 && head[2] === 0xff) return "image/jpeg";
  if (text(head, 0, 4) === "RIFF" && text(head, 8, 12) === "WEBP") return "image/webp";
  // Some writers put a few bytes before the mark.
  return text(head, 0, 1024).includes("%PDF-") ? "application/pdf" : "";
}

/** What it is called in words, for a file that cannot be used. */
export function strange(head: Uint8Array, name: string): string {
  if (head.length === 0) return words.empty;
  const known: [string, string][] = [
    ["GIF8", "a GIF"],
    ["II*\0", "a TIFF"],
    ["MM\0*", "a TIFF"],
    ["BM", "a BMP"],
    ["PK", "a ZIP or an office document"],
    ["AC10", "a DWG drawing"],
    ["<svg", "an SVG"],
    ["<?xml", "an SVG or another XML file"],
  ];
  const found = known.find(([mark]) => text(head, 0, mark.length) === mark)?.[1];
  if (found) return found;
  if (text(head, 4, 8) === "ftyp") return "a HEIC photo or a film";
  const end = /\.([a-z0-9]{1,5})$/i.exec(name)?.[1] ?? "";
  if (/^(png|jpe?g|webp|pdf)$/i.test(end)) return words.misnamed(end);
  return end ? `a .${end} file` : words.unknown;
}

const mb = 1 << 20;
const most = { picture: 24 * mb, pdf: 96 * mb };
const mostPixels = 60_000_000;

/** Why a file cannot be taken; "" where it can. */
export function unfit(head: Uint8Array, name: string, size: number): string {
  const kind = fileKind(head);
  if (kind === "") return `${words.kinds}; ${words.is(strange(head, name))}.`;
  if (size > (kind === "application/pdf" ? most.pdf : most.picture))
    return words.tooLarge((size / mb).toFixed(1));
  return "";
}

/** A name for the job's pictures: letters, digits and - only, not taken yet. */
export function pictureName(file: string, page: number, kind: string, taken: readonly string[]): string {
  const end = kind === "image/jpeg" ? "jpg" : kind.replace("image/", "");
  const stem =
    file
      .replace(/\.[^.]*$/, "")
      .normalize("NFD")
      .replace(/[^A-Za-z0-9]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .toLowerCase()
      .slice(0, 60) || "floor";
  const base = page > 0 ? `${stem}-page-${page}` : stem;
  for (let n = 1; ; n++) {
    const name = `${base}${n > 1 ? `-${n}` : ""}.${end}`;
    if (!taken.includes(name)) return name;
  }
}

export interface Brought {
  name: string;
  size: readonly [number, number];
  page: number;
  pages: number;
}

/** The size of a picture in pixels, as the browser draws it. */
export function sizeOf(address: string): Promise<readonly [number, number]> {
  return new Promise((done, failed) => {
    const img = new Image();
    img.onload = () => done([img.naturalWidth, img.naturalHeight]);
    img.onerror = () => failed(new Error(words.undrawn));
    img.src = address;
  });
}

function whyPDF(e: unknown): Error {
  const name = e instanceof Error ? e.name : "";
  if (name === "PasswordException") return new Error(words.locked);
  if (name === "InvalidPDFException") return new Error(words.damaged);
  return new Error(words.pdf(e instanceof Error ? e.message : String(e)));
}

interface PDFScript {
  drawPage(file: ArrayBuffer, page: number): Promise<{ picture: Blob; pages: number }>;
}

async function pdfPage(file: File, page: number): Promise<{ picture: Blob; pages: number }> {
  const at = "/pdf.js"; // a script of its own, fetched only here
  const script = (await import(at)) as PDFScript;
  return script.drawPage(await file.arrayBuffer(), page).catch((e: unknown) => {
    throw whyPDF(e);
  });
}

/** Takes a file into the job's pictures; page counts in a PDF. The error says in plain words what is wrong with it. */
export async function bring(file: File, page: number): Promise<Brought> {
  const head = new Uint8Array(await file.slice(0, 1024).arrayBuffer());
  const wrong = unfit(head, file.name, file.size);
  if (wrong !== "") throw new Error(wrong);
  const kind = fileKind(head);
  const pdf = kind === "application/pdf";
  const drawn = pdf ? await pdfPage(file, page) : { picture: new Blob([file], { type: kind }), pages: 1 };
  const address = URL.createObjectURL(drawn.picture);
  try {
    const size = await sizeOf(address);
    if (size[0] * size[1] > mostPixels) throw new Error(words.tooMany(size[0], size[1]));
    const { pictures } = await get<Pictures>(jobPath("/pictures"));
    const name = pictureName(file.name, pdf ? page : 0, drawn.picture.type, pictures);
    await send("PUT", jobPath(`/pictures/${name}`), drawn.picture);
    return { name, size, page: pdf ? page : 0, pages: drawn.pages };
  } finally {
    URL.revokeObjectURL(address);
  }
}
