import { jobPath, query } from "../../state/address.ts";
import { inUnits } from "../../state/data.ts";
import { dayWords as words } from "../../words/days.ts";

const fileOf = (chart: string, form: string): string =>
  jobPath(`/charts/${chart}.${form}${query(...inUnits())}`);

const sharp = 4; // pixels of a picture to the pixel of the screen

/** The chart as a picture, drawn by the browser from its SVG. */
async function png(chart: string): Promise<void> {
  const svg = await (await fetch(fileOf(chart, "svg"))).blob();
  const from = URL.createObjectURL(svg);
  const image = new Image();
  image.src = from;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = image.naturalWidth * sharp;
  canvas.height = image.naturalHeight * sharp;
  canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
  URL.revokeObjectURL(from);
  canvas.toBlob((made) => {
    if (!made) return;
    const link = document.createElement("a");
    link.href = URL.createObjectURL(made);
    link.download = `${chart}.png`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  });
}

/** A chart to keep, as a drawing, a picture or its figures. */
export function Take({ chart, of }: { chart: string; of: string }) {
  return (
    <p class="take">
      <span class="hidden">{words.save(of)}: </span>
      <a href={fileOf(chart, "svg")} download aria-label={`${words.save(of)}, SVG`}>
        SVG
      </a>
      <button type="button" onClick={() => void png(chart)} aria-label={`${words.save(of)}, PNG`}>
        PNG
      </button>
      <a href={fileOf(chart, "csv")} download aria-label={`${words.save(of)}, CSV`}>
        CSV
      </a>
    </p>
  );
}
